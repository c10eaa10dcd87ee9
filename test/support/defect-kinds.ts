// Every kind of defect that a scenario may have, as its schema has them.
import { Defect } from '../../sim/scenario-defects.ts';

export const DefectKinds: readonly string[] = Defect.options.map((one) => one.shape.kind.value);
