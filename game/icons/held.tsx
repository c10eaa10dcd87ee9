// Signs of what is dipped into a cup: a float, a prism to look through, a thermometer.
import type { ComponentChildren } from 'preact';

export const HELD_KINDS = ['hydrometer', 'refractometer', 'dip_thermometer'] as const;
export type HeldKind = (typeof HELD_KINDS)[number];

const PICTURES: Readonly<Record<HeldKind, ComponentChildren>> = {
  hydrometer: (
    <>
      <path d="M14 3h4v11h-4z" fill="var(--paper)" />
      <path d="M14 6h2M14 9h2M14 12h2" />
      <path d="M14 14c-5 2-5 12 2 15 7-3 7-13 2-15z" fill="var(--accent-wash)" />
    </>
  ),
  refractometer: (
    <>
      <path d="M3 20 19 8l5 6L8 27z" fill="var(--paper)" />
      <path d="m19 8 3-4 7 8-5 2z" fill="var(--accent-wash)" />
      <path d="M3 20c-2 3 1 8 5 7" />
    </>
  ),
  dip_thermometer: (
    <>
      <path d="M13 4a3 3 0 0 1 6 0v15a6 6 0 1 1-6 0z" fill="var(--paper)" />
      <path d="M16 10v13" stroke="var(--accent)" stroke-width="3" />
      <circle cx="16" cy="24" r="2.6" fill="var(--accent)" />
    </>
  ),
};

export function HeldSign({ kind }: { readonly kind: HeldKind }) {
  return (
    <svg
      class="sign" width="26" height="26" viewBox="0 0 32 32" aria-hidden="true" fill="none"
      stroke="currentColor" stroke-width="1.7" stroke-linejoin="round" stroke-linecap="round"
    >
      {PICTURES[kind]}
    </svg>
  );
}
