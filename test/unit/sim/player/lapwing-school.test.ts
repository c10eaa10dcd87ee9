import { dayTried } from './tried.ts';

dayTried('06-lapwing-school');
