// Small signs drawn in code, in the drawing's own line. All are decoration: the word beside or
// the label of the button says the same.
import type { ComponentChildren } from 'preact';

interface SignProps { readonly children: ComponentChildren; readonly size?: number }

function Sign({ children, size = 20 }: SignProps) {
  return (
    <svg
      class="sign" width={size} height={size} viewBox="0 0 24 24" aria-hidden="true"
      fill="none" stroke="currentColor" stroke-width="2" stroke-linecap="round"
      stroke-linejoin="round"
    >
      {children}
    </svg>
  );
}

/** A valve on a pipe, its handle turned: in line is open, across is shut. */
export function HandleSign({ deg, size = 30 }: { readonly deg: number; readonly size?: number }) {
  return (
    <svg class="sign handle" width={size} height={size} viewBox="0 0 32 32" aria-hidden="true">
      <path d="M1 12h30M1 20h30" fill="none" stroke="currentColor" stroke-width="1.5" />
      <path
        d="M7 9.5v13l18-13v13z" fill="var(--paper)" stroke="currentColor" stroke-width="1.5"
        stroke-linejoin="round"
      />
      <g transform={`rotate(${deg - 90} 16 16)`}>
        <path d="M16 16h13" stroke="var(--ink)" stroke-width="6.5" stroke-linecap="round" />
        <path d="M16 16h13" stroke="var(--accent)" stroke-width="4" stroke-linecap="round" />
      </g>
      <circle cx="16" cy="16" r="2.2" fill="var(--ink)" />
    </svg>
  );
}

/** Arms of a T-port ball: the position that shuts each, its pipe, and its share of the ball. */
const ARMS = [
  { shut: 90, pipe: 'M16 16H3', bore: 'M16 16H9' },
  { shut: 180, pipe: 'M16 16V29', bore: 'M16 16V23' },
  { shut: 270, pipe: 'M16 16H29', bore: 'M16 16H23' },
] as const;

/** A T-port ball between three pipes; those that it joins are filled. */
export function ThreeWaySign({ deg, size = 30 }: { readonly deg: number; readonly size?: number }) {
  const joined = ARMS.filter(({ shut }) => shut !== deg);
  return (
    <svg class="sign" width={size} height={size} viewBox="0 0 32 32" aria-hidden="true" fill="none">
      {ARMS.map(({ pipe }) => <path key={pipe} d={pipe} stroke="var(--ink)" stroke-width="9" />)}
      {ARMS.map(({ pipe }) => <path key={pipe} d={pipe} stroke="var(--paper)" stroke-width="6" />)}
      <g stroke="var(--accent)">
        {joined.map(({ pipe }) => <path key={pipe} d={pipe} stroke-width="6" />)}
        <circle cx="16" cy="16" r="8" fill="var(--paper)" stroke="var(--ink)" stroke-width="1.5" />
        {joined.map(({ bore }) => <path key={bore} d={bore} stroke-width="5" />)}
      </g>
    </svg>
  );
}

/** Two halves of a coupling, joined or apart. */
export function HalvesSign({ made, size }: { readonly made: boolean; readonly size: number }) {
  const gap = made ? 0 : 4;
  return (
    <svg
      class="sign" width={size} height={size} viewBox="0 0 32 32" aria-hidden="true"
      fill="var(--paper)" stroke="currentColor" stroke-width="1.5" stroke-linejoin="round"
    >
      <path d={`M1 12h8v-3h${7 - gap}v14h-${7 - gap}v-3h-8`} />
      <path d={`M31 12h-8v-3h-${7 - gap}v14h${7 - gap}v-3h8`} />
      {made && <path d="M12 9V5h8v4M12 23v4h8v-4" stroke="var(--accent)" stroke-width="2.5" />}
    </svg>
  );
}

export function FreezeSign() {
  return <Sign><path d="M8 5v14M16 5v14" stroke-width="3.5" /></Sign>;
}
export function LensSign() {
  return (
    <Sign>
      <circle cx="10" cy="10" r="6.5" />
      <path d="M15 15l6 6M7 11.5c1.5-2 4.5 1 6-1" />
    </Sign>
  );
}
export function CheckSign() {
  return <Sign><path d="M4.5 12.5l5 5 10-11" stroke-width="2.6" /></Sign>;
}
export function CrossSign() {
  return <Sign><path d="M6 6l12 12M18 6L6 18" stroke-width="2.4" /></Sign>;
}
export function EarSign() {
  return (
    <Sign>
      <path d="M7 10a5.5 5.5 0 1 1 10 3c-1.5 2-3 2.5-3.5 5a3 3 0 0 1-5.5 1" />
      <path d="M10 10.5a2.3 2.3 0 1 1 3.5 2" />
    </Sign>
  );
}
export function EyeSign() {
  return (
    <Sign>
      <path d="M2.5 12s3.5-6 9.5-6 9.5 6 9.5 6-3.5 6-9.5 6-9.5-6-9.5-6z" />
      <circle cx="12" cy="12" r="2.6" />
    </Sign>
  );
}
export function WarnSign() {
  return <Sign><path d="M12 3.5L22 20.5H2zM12 10v5M12 17.8v.1" /></Sign>;
}
export function StopSign() {
  return <Sign><path d="M8 2.5h8l5.5 5.5v8L16 21.5H8L2.5 16V8zM12 7v6.5M12 17v.1" /></Sign>;
}
/** Five strokes: four fingers and a thumb over a palm. */
export function HandSign() {
  return (
    <Sign>
      <path d="M7.5 12.5V6.5a1.4 1.4 0 0 1 2.8 0v4.8V4.6a1.4 1.4 0 0 1 2.8 0v6.7" />
      <path d="M13.1 11.3V5.6a1.4 1.4 0 0 1 2.8 0v6.6V8.6a1.4 1.4 0 0 1 2.8 0v6.2" />
      <path
        d="M18.7 14.8c0 4-2.6 6.7-6.2 6.7s-5-2.2-6.5-4.9l-2.1-3.7a1.5 1.5 0 0 1 2.4-1.7l1.2 1.3"
      />
    </Sign>
  );
}
export function FileSign() { return <Sign><path d="M12 3v12M7 10.5l5 5 5-5M4 20.5h16" /></Sign>; }
export function PrintSign() {
  return <Sign><path d="M7 9V3.5h10V9M7 17H3.5V9h17v8H17M7 14h10v6.5H7z" /></Sign>;
}
export function OnwardSign() { return <Sign><path d="M4 12h15M13 6l6 6-6 6" /></Sign>; }
export function AgainSign() {
  return <Sign><path d="M5 12a7 7 0 1 0 2.2-5.1M4.5 3.5v4.5H9" /></Sign>;
}

/** The mark of the project: a loop that goes down and comes back, with a bubble in it. */
export function LoopMark({ size = 28 }: { readonly size?: number }) {
  return (
    <svg class="sign" width={size} height={size} viewBox="0 0 32 32" aria-hidden="true" fill="none">
      <path d="M2 11.5h28" stroke="var(--ink)" stroke-width="1.5" />
      <path
        d="M10 3v17a6 6 0 0 0 12 0V3" stroke="var(--ink)" stroke-width="7.5"
        stroke-linecap="round"
      />
      <path
        d="M10 3v17a6 6 0 0 0 12 0V3" stroke="var(--water)" stroke-width="4.5"
        stroke-linecap="round"
      />
      <circle cx="16" cy="26" r="1.9" fill="var(--paper)" />
    </svg>
  );
}

/** A dial with its needle and a knock beside it. */
export function TapSign() {
  return (
    <Sign size={26}>
      <circle cx="10" cy="14" r="7.5" />
      <path d="m10 14 4-4" />
      <path d="m17 6 3-3M19 10l3-1M14 4l1-3" />
    </Sign>
  );
}
