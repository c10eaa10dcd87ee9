// The list of all attempts made on this device: where each stands, on to it, out as a file, away;
// and attempts from files in.
import { useSignal, type Signal } from '@preact/signals';
import { levelOf } from '../assign/levels.ts';
import { clock, moment } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import { CheckSign, FileSign } from '../icons/icons.tsx';
import { attemptAddress, titleById } from '../jobs.ts';
import { Brand } from '../panels/brand.tsx';
import { download, fileName, fileOfKept } from '../records/attempt.ts';
import { pointsText } from '../verdict.ts';
import { checkingPool } from '../verify/pool.ts';
import { isKeptShape, type Entry } from './entry.ts';
import { FilePicker } from './file-picker.tsx';
import { bundle, readFiles, type TextFile } from './import.ts';
import type { Library } from './library.ts';
import { isOwn } from './resume.ts';

interface Props {
  readonly library: Library;
  readonly entries: readonly Entry[];
  readonly show: () => Promise<void>;
}

async function fileOf(library: Library, entry: Entry) {
  const kept = (await library.saves(entry.id)).find(isKeptShape);
  return kept === undefined ? null : fileOfKept(kept, entry, levelOf(entry.job));
}

interface RowProps extends Props { readonly entry: Entry; readonly said: Signal<string> }

function Doings({ entry, library, show, said }: RowProps) {
  const asking = useSignal(false);
  const level = levelOf(entry.job);
  const names = { job: titleById(entry.job), when: moment(entry.began) };
  const save = async () => {
    const file = await fileOf(library, entry);
    if (file !== null) download(fileName(entry.job, new Date(entry.changed)), file);
  };
  const drop = async () => {
    const found = await library.drop(entry.id);
    said.value = found === 'elsewhere' ? t('attempts.delete_elsewhere') : '';
    asking.value = false;
    await show();
  };
  if (asking.value) {
    return (
      <div class="doings" role="group" aria-label={t('attempts.delete_label', names)}>
        <p>{t('attempts.delete_ask')}</p>
        <button type="button" onClick={() => void drop()}>{t('attempts.delete_yes')}</button>
        <button type="button" onClick={() => { asking.value = false; }}>
          {t('attempts.delete_no')}
        </button>
      </div>
    );
  }
  const key = entry.finished ? 'attempts.debrief' : 'attempts.open';
  return (
    <div class="doings">
      {level !== null && isOwn(level, entry) && (
        <a
          class="button" href={attemptAddress(entry.id, location.search)}
          aria-label={t(entry.finished ? 'attempts.debrief_label' : 'attempts.open_label', names)}
        >
          {t(key)}
        </a>
      )}
      <button
        type="button" aria-label={t('attempts.save_label', names)} onClick={() => void save()}
      >
        <FileSign /> {t('attempts.save')}
      </button>
      <button
        type="button" aria-label={t('attempts.delete_label', names)}
        onClick={() => { asking.value = true; }}
      >
        {t('attempts.delete')}
      </button>
    </div>
  );
}

function marksText({ marks, finished }: Entry): string {
  if (marks !== null) return t('attempts.marks_of', { points: pointsText(marks.total) });
  return t(finished ? 'attempts.unknown' : 'attempts.unfinished');
}

function Row(props: RowProps) {
  const { entry } = props;
  const level = levelOf(entry.job);
  const tick_s = level?.scenario.solver.tick_s ?? 0;
  const own = level !== null && isOwn(level, entry);
  return (
    <li class="slip attempt">
      <div class="attempt-words">
        <p class="eyebrow">
          {t(`mode.${entry.mode}`)}
          {entry.assigned !== null && <> · {entry.assigned.ticket.name}</>}
          {entry.imported && <> · {t('attempts.imported')}</>}
          {entry.branch !== undefined && (
            <> · {t('look.branch', { time: clock(entry.branch.tick * tick_s) })}</>
          )}
        </p>
        <h2>{titleById(entry.job)}</h2>
        {!own && <p class="hint">{t('attempts.old')}</p>}
      </div>
      <dl class="job-facts">
        <div><dt>{t('attempts.began')}</dt><dd>{moment(entry.began)}</dd></div>
        <div>
          <dt>{t(entry.finished ? 'attempts.took' : 'attempts.stands')}</dt>
          <dd>{clock(entry.end_tick * tick_s)}</dd>
        </div>
        <div><dt>{t('attempts.seed')}</dt><dd>{String(entry.seed)}</dd></div>
        <div>
          <dt>{t('attempts.marks')}</dt>
          <dd>
            {marksText(entry)}
            {entry.marks !== null && (
              <span class="stamp" data-passed={entry.marks.passed}>
                {entry.marks.passed && <CheckSign />}
                {t(entry.marks.passed ? 'jobs.passed' : 'jobs.not_passed')}
              </span>
            )}
          </dd>
        </div>
      </dl>
      <Doings {...props} />
    </li>
  );
}

export function AttemptsPage({ library, entries, show }: Props) {
  const said = useSignal('');
  const remarks = useSignal<readonly string[]>([]);
  const saveAll = async () => {
    const files = await Promise.all(entries.map((entry) => fileOf(library, entry)));
    const name = fileName('attempts', new Date());
    download(name, bundle(files.filter((one) => one !== null)));
  };
  const read = async (files: readonly TextFile[]) => {
    const pool = checkingPool();
    const read = await readFiles(files, library, pool, (n, count) => {
      said.value = t('attempts.reading', { n, count });
    });
    pool.close();
    said.value = t('attempts.read_done', { n: read.kept, count: read.count });
    remarks.value = read.remarks;
    await show();
  };
  return (
    <main class="attempts">
      <Brand />
      <header>
        <h1>{t('attempts.name')}</h1>
        <p class="summary">{t('attempts.lead')}</p>
      </header>
      <div class="actions">
        <FilePicker name={t('attempts.read')} many take={(files) => void read(files)} />
        {entries.length > 0 && (
          <button type="button" onClick={() => void saveAll()}>
            <FileSign /> {t('attempts.save_all')}
          </button>
        )}
      </div>
      <div role="status" class="said-here">
        {said.value !== '' && <p>{said.value}</p>}
        {remarks.value.length > 0 && (
          <ul>{remarks.value.map((line) => <li key={line}>{line}</li>)}</ul>
        )}
        {library.trouble !== null && (
          <p class="notice">
            {t(library.trouble === 'full' ? 'attempts.full' : 'attempts.blocked')}
          </p>
        )}
      </div>
      {entries.length === 0 && library.trouble === null && <p>{t('attempts.none')}</p>}
      {entries.length > 0 && (
        <ol class="attempt-list" aria-label={t('attempts.list')}>
          {entries.map((entry) => (
            <Row key={entry.id} {...{ entry, library, entries, show, said }} />
          ))}
        </ol>
      )}
    </main>
  );
}
