// Boots the instructor's page. It has neither a yard nor a drawing, and loads none.
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import '../styles/base.css';
import '../styles/jobs.css';
import '../styles/attempts.css';
import '../styles/instructor.css';
import { render } from 'preact';
import { setLocale } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import { InstructorPage } from './page.tsx';

setLocale(document.documentElement.lang);
document.title = t('instructor.title');
render(<InstructorPage />, document.getElementById('app')!);
