// The walls the linter and the import checker cannot see. Each is a function from file contents
// to a list of faults, so that it can be tried on a planted fault as well as on the project.

/** A file of the project: path with forward slashes, and its text. */
export interface TextFile {
  readonly path: string;
  readonly text: string;
}

const TOP_LEVEL: readonly string[] = [
  ...['game', 'sim', 'levels', 'test', 'public'],
  ...['package.json', 'vite.config.ts', 'README.md', 'DEVELOPERS.md'],
  // What tools insist on having there.
  ...['package-lock.json', 'tsconfig.json', 'eslint.config.js', '.dependency-cruiser.cjs'],
  ...['.gitignore', '.npmrc', '.ci', 'LICENSE'],
];

/** Entries of the top level that do not belong there. */
export function topLevelFaults(paths: readonly string[]): string[] {
  const entries = new Set(paths.map((path) => path.split('/')[0] ?? path));
  return [...entries].filter((entry) => !TOP_LEVEL.includes(entry));
}

const LINES_MAX = 300;
const COLUMNS_MAX = 100;
const HEADER_LINES_MAX = 6;

/**
 * Code whose header tells a story, and style sheets longer or wider than allowed; the linter
 * measures the code itself.
 */
export function sizeFaults(files: readonly TextFile[]): string[] {
  const faults: string[] = [];
  for (const { path, text } of files) {
    if (!/\.(ts|tsx|mjs|cjs|js|css)$/.test(path)) continue;
    const lines = text.replace(/\n$/, '').split('\n');
    const header = headerLines(lines);
    if (header > HEADER_LINES_MAX) faults.push(`${path}: a header of ${header} lines`);
    if (!path.endsWith('.css')) continue;
    if (lines.length > LINES_MAX) faults.push(`${path}: ${lines.length} lines`);
    lines.forEach((line, at) => {
      if (line.length > COLUMNS_MAX) faults.push(`${path}:${at + 1}: ${line.length} columns`);
    });
  }
  return faults;
}

/** Lines of the comment a file begins with. */
function headerLines(lines: readonly string[]): number {
  const first = lines[0]?.startsWith('#!') === true ? 1 : 0;
  if (lines[first]?.startsWith('/*') === true) {
    return lines.findIndex((line, at) => at >= first && line.includes('*/')) + 1 - first;
  }
  let at = first;
  while (lines[at]?.startsWith('//') === true) at += 1;
  return at - first;
}

// The velocity the trade's rule of thumb names, in every way it could be written into the engine.
const RULE_VELOCITY = new RegExp(
  [
    '(?<![\\d.])0*\\.60960*(?!\\d)',
    '(?<![\\d.])2(\\.0+)?[ _-]?(ft|feet|foot)[ _-]?(\\/|per|_)[ _-]?s',
    '(?<![a-z])ft_(per_)?s(?![a-z])',
  ].join('|'),
  'i',
);
const BARE_NUMBER = /(?<![\d.])0*\.610*(?!\d)/;
const PIPE_LAW = /\[Escarameia/;

/**
 * The rule velocity anywhere in the engine. Air must leave the pipes by the laws of two-phase
 * flow, not because a threshold was written down. The same digits are a constant of one law of
 * critical velocity; a line of that law with its citation is let through.
 */
export function ruleVelocityFaults(files: readonly TextFile[]): string[] {
  const faults: string[] = [];
  for (const { path, text } of files) {
    if (!path.startsWith('sim/')) continue;
    text.split('\n').forEach((line, at) => {
      const cited = path === 'sim/laws/gas.ts' && PIPE_LAW.test(line);
      const hit = RULE_VELOCITY.test(line) || (BARE_NUMBER.test(line) && !cited);
      if (hit) faults.push(`${path}:${at + 1}: ${line.trim()}`);
    });
  }
  return faults;
}

const PAPERS = ['physics', 'numerics', 'architecture', 'training', 'stack', 'product'];

// Written in pieces, so that this file does not trip over itself.
const WORDS: readonly RegExp[] = [
  new RegExp(['(?<![\\w.])', 'work', '(main|shared)\\b'].join('/')),
  new RegExp(['', 'tmp', '(brief|bash_jobs)'].join('/')),
  new RegExp(['registry', '(npmjs|npmmirror|yarnpkg)'].join('\\.')),
  new RegExp(['\\btrans', 'cript'].join(''), 'i'),
  new RegExp(['seed', 'documents?'].join('[ -]'), 'i'),
  new RegExp(`\\b(${PAPERS.join('|')})\\.md\\b`),
];

/** Words of the workplace: paths, hosts and papers a reader of the project cannot know. */
export function workplaceFaults(files: readonly TextFile[]): string[] {
  return files.flatMap(({ path, text }) =>
    text.split('\n').flatMap((line, at) =>
      WORDS.filter((word) => word.test(line)).map((word) => `${path}:${at + 1}: ${word.source}`),
    ),
  );
}

/** A lock file that names where its packages came from. */
export function lockFaults(lock: string): string[] {
  const { packages } = JSON.parse(lock) as { packages: Record<string, { resolved?: string }> };
  const resolved = Object.entries(packages).filter(([, entry]) => entry.resolved !== undefined);
  const hosts = lock.match(/https?:\/\/[^"]*\.tgz/g);
  return [...resolved.map(([name]) => `${name}: resolved`), ...(hosts ?? [])];
}

/** Dependencies that are not pinned to one version. */
export function pinFaults(manifest: string): string[] {
  const { dependencies, devDependencies } = JSON.parse(manifest) as {
    dependencies: Record<string, string>;
    devDependencies: Record<string, string>;
  };
  return Object.entries({ ...dependencies, ...devDependencies })
    .filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))
    .map(([name, version]) => `${name}: ${version}`);
}
