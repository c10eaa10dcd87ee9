// A whole day, from arrival to the second visit.
import { dayHeld } from './day.ts';

dayHeld('05-curlew-rise');
