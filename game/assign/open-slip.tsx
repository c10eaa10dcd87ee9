// Opens an assignment without following its link: from a file, or from a text pasted in.
import { useSignal } from '@preact/signals';
import { FilePicker } from '../attempts/file-picker.tsx';
import { t } from '../i18n/index.ts';
import { packedIn, packTicket, readTicket, unpackTicket, type Ticket } from './ticket.ts';

function fromText(text: string): Ticket | null {
  const packed = packedIn(text);
  if (packed !== null) return unpackTicket(packed);
  try {
    return readTicket(JSON.parse(text) as unknown);
  } catch {
    return null;
  }
}

export function OpenSlip() {
  const pasted = useSignal('');
  const broken = useSignal(false);
  const open = (text: string) => {
    const ticket = fromText(text);
    broken.value = ticket === null;
    if (ticket !== null) location.hash = `a=${packTicket(ticket)}`;
  };
  return (
    <section class="slip open-slip" aria-labelledby="open-assignment">
      <details>
        <summary><h2 id="open-assignment">{t('assign.open')}</h2></summary>
        <p class="hint">{t('assign.open_hint')}</p>
        <form
          class="fields" noValidate
          onSubmit={(event) => { event.preventDefault(); open(pasted.value); }}
        >
          <FilePicker name={t('assign.open_file')} take={([one]) => open(one?.text ?? '')} />
          <label for="pasted">{t('assign.open_link')}</label>
          <input
            id="pasted" type="text" inputMode="url" value={pasted.value}
            onInput={(event) => { pasted.value = event.currentTarget.value; }}
          />
          <p role="alert" class="wrong-line">{broken.value && t('assign.broken')}</p>
          <div class="actions"><button>{t('assign.open_go')}</button></div>
        </form>
      </details>
    </section>
  );
}
