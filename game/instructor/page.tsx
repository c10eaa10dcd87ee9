// The instructor's page: assignments out, attempts in, and what a re-run attempt proves.
import { t } from '../i18n/index.ts';
import { Brand } from '../panels/brand.tsx';
import { Checker } from './checker.tsx';
import { Maker } from './maker.tsx';

function Proves() {
  return (
    <section class="slip plain-slip proves" aria-labelledby="proves">
      <h2 id="proves">{t('instructor.proves')}</h2>
      <ul class="does">
        <li>{t('instructor.proves_yes_1')}</li>
        <li>{t('instructor.proves_yes_2')}</li>
        <li>{t('instructor.proves_yes_3')}</li>
        <li>{t('instructor.proves_yes_4')}</li>
      </ul>
      <ul class="does-not">
        <li>{t('instructor.proves_no_1')}</li>
        <li>{t('instructor.proves_no_2')}</li>
        <li>{t('instructor.proves_no_3')}</li>
        <li>{t('instructor.proves_no_4')}</li>
        <li>{t('instructor.proves_no_5')}</li>
      </ul>
      <p>{t('instructor.proves_end')}</p>
    </section>
  );
}

export function InstructorPage() {
  return (
    <>
      <main class="instructor">
        <Brand />
        <header>
          <h1>{t('instructor.name')}</h1>
          <p class="summary">{t('instructor.lead')}</p>
        </header>
        <Maker />
        <Checker />
        <Proves />
      </main>
      <footer class="foot">{t('app.aid')}</footer>
    </>
  );
}
