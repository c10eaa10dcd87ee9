// Plain messages about what is kept: where the attempt was taken up again, and what the storage
// of this device cannot do. Never in the way of play.
import { useSignal } from '@preact/signals';
import { clock } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import { FileSign } from '../icons/icons.tsx';
import type { Greeting, Play } from '../play.ts';
import { attemptFile, download, fileName } from '../records/attempt.ts';

function oldFile(play: Play, greeting: Extract<Greeting, { kind: 'old' }>): void {
  const { kept } = greeting;
  const parts = { kept, marks: null, id: play.place.keeper.id, assigned: null };
  download(fileName(play.level.id, new Date()), attemptFile(parts));
}

function saveFile(play: Play): void {
  download(fileName(play.level.id, new Date()), play.file());
}

function FileButton({ press }: { readonly press: () => void }) {
  return <button type="button" onClick={press}><FileSign /> {t('store.file')}</button>;
}

function Resumed({ play, time_s }: { readonly play: Play; readonly time_s: number }) {
  const asking = useSignal(false);
  const greeting = play.greeting.value;
  const speed = greeting?.kind === 'resumed' ? greeting.speed : 1;
  const time = clock(time_s);
  return (
    <div class="notice" role="status">
      <p>{asking.value ? t('store.start_over_ask') : t('store.resumed', { time })}</p>
      {asking.value ? (
        <>
          <button type="button" onClick={() => play.again()}>{t('store.start_over')}</button>
          <button type="button" onClick={() => { asking.value = false; }}>{t('store.keep')}</button>
        </>
      ) : (
        <>
          <button type="button" class="primary" onClick={() => play.setSpeed(speed)}>
            {t('front.resume', { time })}
          </button>
          {play.place.keeper.mayBegin && (
            <button type="button" onClick={() => { asking.value = true; }}>
              {t('store.start_over')}
            </button>
          )}
        </>
      )}
    </div>
  );
}

function Trouble({ play }: { readonly play: Play }) {
  const trouble = play.place.trouble.value;
  if (trouble === null) return null;
  if (trouble === 'taken') {
    return (
      <div class="notice" role="alert">
        <p>{t('attempts.taken')}</p>
        <button type="button" class="primary" onClick={() => location.reload()}>
          {t('attempts.take_back')}
        </button>
      </div>
    );
  }
  return (
    <div class="notice" role="status">
      <p>{trouble === 'full' ? t('store.full') : t('store.blocked')}</p>
      {play.view.value !== 'front' && <FileButton press={() => saveFile(play)} />}
    </div>
  );
}

export function Notices({ play }: { readonly play: Play }) {
  const greeting = play.greeting.value;
  return (
    <>
      {greeting?.kind === 'resumed' && <Resumed play={play} time_s={greeting.time_s} />}
      {greeting?.kind === 'old' && (
        <div class="notice" role="status">
          <p>{t('store.old')}</p>
          <FileButton press={() => oldFile(play, greeting)} />
        </div>
      )}
      {greeting?.kind === 'damaged' && (
        <div class="notice" role="status"><p>{t('store.damaged')}</p></div>
      )}
      <Trouble play={play} />
    </>
  );
}
