// Signs of devices by kind and position, in the drawing's own line. All are decoration: the word
// beside them says the same.
import type { ComponentChildren } from 'preact';
import type { DeviceKind } from '../../sim/index.ts';
import type { ActSign } from '../yard/types.ts';

interface Props {
  readonly kind: DeviceKind;
  readonly position: number;
  /** Of what is worn. */
  readonly what?: 'eyes' | 'gloves' | 'hearing' | null;
  /** Of an act, as the level's drawing names it; else it is a sheet to tick. */
  readonly act?: ActSign | null;
}

/** Arms of a coupling seen from the side: down along its body, or standing off; a pin through. */
function latch(position: number): ComponentChildren {
  const arms = position === 0 ? 'M9 12 3 4M23 12l6-8' : 'M9 12v9M23 12v9';
  return (
    <>
      <path d="M11 6h10v18H11z" fill="var(--paper)" />
      <path d={arms} stroke="var(--accent)" stroke-width="3" />
      {position === 2 && <path d="M5 17h8M19 17h8" stroke-width="2.5" />}
    </>
  );
}

function padlock(position: number): ComponentChildren {
  return (
    <>
      <path d={position === 1 ? 'M11 15v-4a5 5 0 0 1 10 0v4' : 'M11 15V8a5 5 0 0 1 9-3'} />
      <path d="M8 15h16v11H8z" fill={position === 1 ? 'var(--accent)' : 'var(--paper)'} />
    </>
  );
}

/** A plug with two pins before an outlet, or in it; the outlet that is watched has a button. */
function plug(position: number): ComponentChildren {
  const watched = position !== 2;
  const out = position === 0;
  return (
    <>
      <path d="M19 7h11v18H19z" fill={watched ? 'var(--accent-wash)' : 'var(--paper)'} />
      {watched && <path d="M23 11h3" stroke="var(--accent)" stroke-width="3" />}
      <path d={out ? 'M1 18h2M11 16h4M11 20h4' : 'M1 18h7M16 16h6M16 20h6'} />
      <path d={out ? 'M3 13h8v10H3z' : 'M8 13h8v10H8z'} fill="var(--ink)" />
    </>
  );
}

const PROTECTOR = ['m19 12 7 7m0-7-7 7', 'm18 16 3 4 6-8', 'M22 4v7m-3-3 3 3 3-3'] as const;

/** An outlet, beside it what its protector says: cut off, on, or its test button pressed. */
function protector(position: number): ComponentChildren {
  return (
    <>
      <path d="M3 6h26v20H3z" fill="var(--paper)" />
      <path d="M8 11v4M12 11v4M10 20v1" stroke-width="2.5" />
      {position === 2 && <path d="M18 15h8v6h-8z" fill="var(--accent)" />}
      <path d={PROTECTOR[position] ?? ''} stroke-width="2.2" />
    </>
  );
}

/** Glasses, a glove, ear muffs. */
const WORN = {
  eyes: 'M3 13h26M5 13c0 9 10 9 10 1h2c0 8 10 8 10-1',
  gloves: 'M10 28V18l-4-5c-1-3 2-4 4-2l2 3V6c0-3 4-3 4 0V5c0-3 4-3 4 0v2c0-3 4-3 4 0v11l-2 10z'
    + 'M10 23h12',
  hearing: 'M6 18a10 10 0 0 1 20 0M4 17h6v10H4zM22 17h6v10h-6z',
} as const;

/** A plan read, a drop and a cloth, a tag on its string, a sheet handed on, a meter that sniffs,
 * somebody at a hatch. */
const ACTS: Readonly<Record<ActSign, string>> = {
  read: 'M3 6h26v20H3zM8 11v6a3.5 3.5 0 0 0 7 0v-6M19 12h6M19 16h6M19 20h4',
  wipe: 'M16 3c3 4 4 6 4 8a4 4 0 0 1-8 0c0-2 1-4 4-8zM4 21c5-5 9-4 12-1s7 3 12 0v6c-5 4-9 3-12 0'
    + 's-7-3-12 2z',
  tag: 'M13 9h15v15H13l-7-7.500zM13.500 16.500h.1M18 14h6M18 19h6M10 12.500C5 11 5 5 9 4',
  hand_over: 'M5 5h13v22H5zM9 10h5M9 14h5M9 18h3M21 16h9m-4-4 4 4-4 4',
  air_test: 'M10 13h12v16H10zM13 16h6v4h-6zM16 13V9M8 5c3-3 5 2 8 0s5-2 8 0',
  attend: 'M16 3a4 4 0 1 1 0 8 4 4 0 0 1 0-8zM9 24v-3c0-10 14-10 14 0v3zM2 28h8M22 28h8',
};

function act(sign: ActSign | null, done: boolean): ComponentChildren {
  if (sign === null) {
    return (
      <>
        <path d="M7 5h18v22H7z" fill="var(--paper)" />
        <path d={done ? 'M11 16l4 4 7-9' : 'M11 11h10M11 16h10M11 21h6'} stroke-width="2.2" />
      </>
    );
  }
  return (
    <>
      <path d={ACTS[sign]} fill="var(--paper)" />
      {done && <path d="M15 25l5 5 10-13" stroke="var(--paper)" stroke-width="6" />}
      {done && <path d="M15 25l5 5 10-13" stroke="var(--accent)" stroke-width="3" />}
    </>
  );
}

function picture(props: Props): ComponentChildren {
  const { kind, position, what = null } = props;
  const on = position === 1;
  switch (kind) {
    case 'latch': return latch(position);
    case 'lock': return padlock(position);
    case 'wear': return (
      <>
        <path d={WORN[what ?? 'eyes']} fill={on ? 'var(--accent-wash)' : 'none'} />
        {!on && <path d="M4 29 28 3" />}
      </>
    );
    case 'guard': return (
      <>
        <path d="M3 16h7M22 16h7M10 9v14l12-7z" fill={on ? 'var(--accent-wash)' : 'none'} />
        <path d={on ? 'M22 9v14' : 'M6 6l20 20'} />
      </>
    );
    case 'fan': return (
      <>
        <circle cx="16" cy="16" r="12" fill={on ? 'var(--accent-wash)' : 'none'} />
        <path d="M16 16c-1-8 7-9 6-3M16 16c8 3 4 10-1 7M16 16c-7 5-10-3-5-6" />
      </>
    );
    case 'flame': return (
      <>
        <path d="M16 4c5 6 8 9 8 14a8 8 0 0 1-16 0c0-3 2-5 3-6 0 3 2 4 3 4 1-4-1-7 2-12z" />
        {!on && <path d="M5 27 27 5" />}
      </>
    );
    case 'entry': return (
      <>
        <path d="M3 12h8v16h10V12h8" />
        <path d={on ? 'M16 8v12m-4-4 4 4 4-4' : 'M16 18V5m-4 4 4-4 4 4'} />
      </>
    );
    case 'plug': return plug(position);
    case 'breaker': return (
      <>
        <path d="M10 4h12v24H10z" fill="var(--paper)" />
        <path d={on ? 'M16 16V9' : 'M16 16v7'} stroke="var(--accent)" stroke-width="5" />
      </>
    );
    case 'ground_fault': return protector(position);
    case 'cup': return (
      <>
        <path d="M8 5h16l-2 22H10z" fill="var(--paper)" />
        {position > 0 && <path d="M9 14h14l-1 13H10z" fill="var(--water)" />}
      </>
    );
    case 'housing': return (
      <>
        <path d="M9 9h14v17l-3 3h-8l-3-3zM7 5h18v4H7z" fill="var(--paper)" />
        {position > 0 && <path d="M13 12v13M16 12v13M19 12v13" stroke="var(--accent)" />}
      </>
    );
    case 'carry': return (
      <>
        <path d="M7 11h18l-3 16H10z" fill="var(--paper)" />
        <path d="M7 11c2-9 16-9 18 0" />
        {position > 0 && <path d="M12 19h8m-3-3 3 3-3 3" stroke="var(--accent)" />}
      </>
    );
    case 'act': return act(props.act ?? null, on);
  }
}

export function DeviceSign(props: Props) {
  return (
    <svg
      class="sign" width="26" height="26" viewBox="0 0 32 32" aria-hidden="true" fill="none"
      stroke="currentColor" stroke-width="1.7" stroke-linejoin="round" stroke-linecap="round"
    >
      {picture(props)}
    </svg>
  );
}
