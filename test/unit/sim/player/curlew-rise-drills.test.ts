import { drillsTried } from './tried.ts';

drillsTried('05-curlew-rise');
