// A slip of paper with a name. On a small screen those that fold begin folded.
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

interface Props {
  readonly id: string;
  readonly name: string;
  readonly folds?: boolean;
  readonly children: ComponentChildren;
}

/** Opens one that is folded. */
export function unfold(id: string): void {
  document.querySelector(`#${id} > details`)?.setAttribute('open', '');
}

const SMALL = '(max-width: 699px)';

export function Slip({ id, name, folds = true, children }: Props) {
  const [open] = useState(() => !folds || !window.matchMedia(SMALL).matches);
  return (
    <section class={`slip ${id}`} id={id} tabIndex={-1} aria-labelledby={`${id}-name`}>
      <details open={open}>
        <summary><h2 id={`${id}-name`}>{name}</h2></summary>
        {children}
      </details>
    </section>
  );
}
