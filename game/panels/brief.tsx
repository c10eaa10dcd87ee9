// Pieces that the brief of a job and that of a drill are made of; a list of figures is the same
// everywhere.
import type { ComponentChildren } from 'preact';
import { t, type Lexicon } from '../i18n/index.ts';

export type Heading = 'h2' | 'h3';

/** Names with their values, a line each. */
export function Rows({ rows }: { readonly rows: readonly (readonly [string, string])[] }) {
  return (
    <dl class="figures">
      {rows.map(([name, value]) => <div key={name}><dt>{name}</dt><dd>{value}</dd></div>)}
    </dl>
  );
}

export function Lines({ lex, prefix, skip = [], children }: {
  readonly lex: Lexicon;
  readonly prefix: string;
  readonly skip?: readonly string[];
  readonly children?: ComponentChildren;
}) {
  const keys = lex.list(prefix).filter((key) => !skip.includes(key));
  return <ul>{keys.map((key) => <li key={key}>{lex.say(key)}</li>)}{children}</ul>;
}

/** What is said on every site of this kind. */
export function OnSite({ lex, H }: { readonly lex: Lexicon; readonly H: Heading }) {
  return (
    <div class="job-cautions">
      <H class="part-name">{t('job.cautions')}</H>
      <Lines lex={lex} prefix="caution." skip={['caution.aid']} />
    </div>
  );
}
