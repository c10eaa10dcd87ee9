// "I'm done" asks once, in a dialog of the browser's own, with the clock standing while it asks.
import { useRef } from 'preact/hooks';
import { pairsOf } from '../counted.ts';
import { list } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import { CheckSign } from '../icons/icons.tsx';
import type { Speed } from '../loop.ts';
import { HomeButtons } from './home.tsx';
import type { Play } from '../play.ts';

/** What hands have taken on or were asked for and have not done. */
function unfinished(play: Play): string {
  const taken = pairsOf(play.seen.value).flatMap(({ busy, waiting }) =>
    busy === null ? waiting : [busy, ...waiting]);
  const ids = [...taken, ...play.waiting.value.keys()];
  return list([...new Set(ids)].map(play.lex.part));
}

export function Done({ play }: { readonly play: Play }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const before = useRef<Speed>(0);
  const ask = () => {
    before.current = play.speed.value;
    if (dialog.current !== null) dialog.current.returnValue = '';
    play.setSpeed(0);
    dialog.current?.showModal();
  };
  const closed = () => {
    if (dialog.current?.returnValue === 'yes') play.handOver();
    else if (dialog.current?.returnValue === 'home') return;
    else if (play.view.value === 'yard' && before.current !== 0) play.setSpeed(before.current);
  };
  const left = unfinished(play);
  return (
    <>
      <button type="button" class="primary done" onClick={ask}>
        <CheckSign /> {t('done.button')}
      </button>
      <dialog ref={dialog} class="slip" aria-labelledby="done-ask" onClose={closed}>
        <h2 id="done-ask">{t('done.ask')}</h2>
        <p>{t('done.warn')}</p>
        {left !== '' && <p class="critical-line">{t('done.hands', { list: left })}</p>}
        <form method="dialog">
          <button class="primary" value="yes">{t('done.yes')}</button>
          <HomeButtons play={play} then={() => dialog.current?.close('home')} />
          <button value="no" autoFocus>{t('done.no')}</button>
        </form>
      </dialog>
    </>
  );
}
