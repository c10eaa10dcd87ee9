// A whole day, from arrival to the second visit.
import { dayHeld } from './day.ts';

dayHeld('06-lapwing-school');
