// The forms of a job as the pages tell of them: by number, as the seed is; and how another is had.
import { AS_WRITTEN } from '../sim/index.ts';
import { t } from './i18n/index.ts';

/** Numbers a person can say and type again. */
const MOST = 9999;

/** "4711", or "1, as written": without marks between its digits, as it is typed. */
export function formNumber(seed: number): string {
  return seed === AS_WRITTEN ? t('form.written', { n: String(seed) }) : String(seed);
}

/** "form 4711", or "form 1, as written". */
export function formName(seed: number): string {
  return t('form.of', { n: formNumber(seed) });
}

/** The number of another form than this one, by chance; never the one that is written. */
export function otherForm(seed: number): number {
  const [drawn = 0] = crypto.getRandomValues(new Uint16Array(1));
  const other = AS_WRITTEN + 1 + (drawn % (MOST - AS_WRITTEN));
  if (other !== seed) return other;
  return other < MOST ? other + 1 : AS_WRITTEN + 1;
}
