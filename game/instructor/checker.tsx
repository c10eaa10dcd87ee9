// Takes the files of a class, has them run again, and lays out what came of it.
import { useSignal, type Signal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import { FilePicker, readAll } from '../attempts/file-picker.tsx';
import { textsOf, type TextFile } from '../attempts/import.ts';
import { t } from '../i18n/index.ts';
import { checkingPool } from '../verify/pool.ts';
import type { Report } from '../verify/report.ts';
import { ClassSheetView } from './class-sheet.tsx';
import { classSheet } from './sheet.ts';

interface Progress { readonly done: number; readonly count: number }

/** Files are taken as they come; what is still running when more arrive goes on. */
function useChecking(reports: Signal<readonly Report[]>, progress: Signal<Progress>) {
  const pool = useMemo(checkingPool, []);
  useEffect(() => () => pool.close(), [pool]);
  return (files: readonly TextFile[]) => {
    const texts = files.flatMap(textsOf);
    progress.value = { ...progress.value, count: progress.value.count + texts.length };
    for (const { file, text } of texts) {
      void pool.check(file, text).then(({ report }) => {
        reports.value = [...reports.value, report];
        progress.value = { ...progress.value, done: progress.value.done + 1 };
      });
    }
  };
}

function Drop({ take }: { readonly take: (files: readonly TextFile[]) => void }) {
  const over = useSignal(false);
  const drop = async (event: DragEvent) => {
    event.preventDefault();
    over.value = false;
    const files = event.dataTransfer?.files;
    if (files !== undefined) take(await readAll(files));
  };
  return (
    <div
      class="drop" data-over={over.value}
      onDragOver={(event) => { event.preventDefault(); over.value = true; }}
      onDragLeave={() => { over.value = false; }}
      onDrop={(event) => void drop(event)}
    >
      <FilePicker name={t('instructor.check_files')} many primary take={take} />
      <span>{t('instructor.check_drop')}</span>
    </div>
  );
}

export function Checker() {
  const reports = useSignal<readonly Report[]>([]);
  const progress = useSignal<Progress>({ done: 0, count: 0 });
  const take = useChecking(reports, progress);
  const { done, count } = progress.value;
  const clear = () => {
    reports.value = [];
    progress.value = { done: 0, count: 0 };
  };
  return (
    <>
      <section class="slip plain-slip check" aria-labelledby="check">
        <h2 id="check">{t('instructor.check')}</h2>
        <p>{t('instructor.check_lead')}</p>
        <Drop take={take} />
        <div role="status" class="said-here">
          {count > 0 && <p>{t('instructor.check_progress', { n: done, count })}</p>}
        </div>
        {count > 0 && done === count && (
          <div class="actions">
            <button type="button" onClick={clear}>{t('instructor.check_clear')}</button>
          </div>
        )}
      </section>
      {reports.value.length > 0 && <ClassSheetView sheet={classSheet(reports.value)} />}
    </>
  );
}
