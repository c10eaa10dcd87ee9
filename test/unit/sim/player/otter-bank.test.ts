import { dayTried } from './tried.ts';

dayTried('04-otter-bank');
