import { drillsTried } from './tried.ts';

drillsTried('06-lapwing-school');
