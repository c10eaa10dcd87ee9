import { drillsTried } from './tried.ts';

drillsTried('04-otter-bank');
