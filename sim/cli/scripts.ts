// Hand scripts as files: one that is written out, or a mistake, which is a script beside it with
// one edit.
import { dirname, join } from 'node:path';
import { isMistake, mistakeScript, parseMistake } from '../mistake.ts';
import { read } from './files.ts';

/** Reads and checks a script; of a mistake, what comes of it. */
export function readScript<T>(file: string, parse: (json: unknown) => T): T {
  return read(file, (json) => {
    if (!isMistake(json)) return parse(json);
    const mistake = parseMistake(json);
    const beside = join(dirname(file), `${mistake.of}.script.json`);
    return parse(
      mistakeScript(
        mistake,
        read(beside, (base) => base),
      ),
    );
  });
}
