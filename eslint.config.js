// Lint rules. What matters most stands first: the engine must give the same bits on every
// machine, so sim/ may not use what differs between browsers, nor clocks, nor chance.
// Exceptions are not made in the code but listed, with a reason, in test/tools/exceptions.mjs.

import { defineConfig } from 'eslint/config';
import tseslint from 'typescript-eslint';
import { EXCEPTIONS } from './test/tools/exceptions.mjs';

const CODE = ['**/*.ts', '**/*.tsx'];
const SCRIPTS = ['**/*.mjs', '**/*.js', '**/*.cjs'];

/** @param {string} selector @param {string} message */
const ban = (selector, message) => ({ selector, message });

/** @param {string[]} names @param {string} message */
const banNames = (names, message) => ban(`Identifier[name=/^(${names.join('|')})$/]`, message);

/** Erasable TypeScript only, and imports that name the file. */
const EVERYWHERE = [
  ban('TSEnumDeclaration', 'Use an `as const` array with a derived union.'),
  ban('TSModuleDeclaration[kind="namespace"]', 'A file is the namespace.'),
  ban('TSParameterProperty', 'Write the field out: parameter properties are not erasable.'),
  ban(
    ':matches(ImportDeclaration, ExportNamedDeclaration, ExportAllDeclaration)' +
      '[source.value=/^\\.\\.?\\u002F(?!.*\\.\\w+$)/]',
    'A relative import names the file with its extension.',
  ),
];

const NO_POWER = ban(':matches(BinaryExpression[operator="**"], AssignmentExpression' +
  '[operator="**="])', 'Write x * x, or pow from base/math.ts: `**` differs between engines.');
const NO_MATH = ban('Identifier[name="Math"]',
  'Use base/math.ts: some functions of Math differ between engines.');
const NO_LOCALE = ban('Identifier[name=/^(Intl|localeCompare|toLocale\\w*)$/]',
  'Locales differ between machines; words and formats belong to game/i18n.');
const NO_DATE = banNames(['Date'], 'The only time is tick * tick_s.');
const NO_CLOCK = banNames(
  ['performance', 'setTimeout', 'setInterval', 'setImmediate', 'queueMicrotask'],
  'The only time is tick * tick_s.',
);
const NO_CHANCE = banNames(['random', 'crypto'], 'Chance comes from base/rng.ts.');
const NO_HOST = banNames(
  ['console', 'process', 'globalThis', 'fetch', 'require', 'eval', 'Function', 'WeakRef'],
  'The engine knows no host.',
);
const NO_WAITING = ban(
  ':matches(AwaitExpression, ImportExpression, ForOfStatement[await=true])',
  'The engine is synchronous.',
);

/** base/math.ts alone may use Math, and of it only what is exactly rounded everywhere. */
const EXACT = 'sqrt|abs|min|max|floor|ceil|round|trunc|sign|fround|imul|clz32|PI|LN2|LN10|E';
const ONLY_EXACT_MATH = [
  ban(`MemberExpression[object.name="Math"]:not([property.name=/^(${EXACT})$/])`,
    'This function of Math differs between engines.'),
  ban('MemberExpression[object.name="Math"][computed=true]', 'Name the function.'),
  ban('Identifier[name="Math"]:not(MemberExpression > .object)', 'Use Math.name only.'),
];

const SIM_ALWAYS = [...EVERYWHERE, NO_POWER, NO_LOCALE, NO_DATE, NO_CHANCE];
const SIM = [...SIM_ALWAYS, NO_CLOCK, NO_HOST, NO_WAITING];

/** @param {object[]} bans @returns {import('eslint').Linter.RulesRecord} */
const syntax = (bans) => ({ 'no-restricted-syntax': ['error', ...bans] });

/** @type {import('eslint').Linter.RulesRecord} */
const SIZES = {
  'max-lines': ['error', { max: 300 }],
  'max-len': ['error', { code: 100, ignoreUrls: true }],
  'max-params': ['error', { max: 4 }],
};

/** One program for all that is linted with types: a service makes one for each tsconfig.json. */
const TYPED = { project: './test/tools/lint.tsconfig.json' };

/**
 * The whole configuration, with the exceptions given.
 * @param {readonly import('./test/tools/exceptions.mjs').Exception[]} exceptions
 * @param {{ project?: string, projectService?: boolean }} [typed] where types come from
 */
export function configure(exceptions, typed = TYPED) {
  return defineConfig(
    { ignores: ['node_modules/', 'dist*/', 'test-results/', 'coverage/', 'public/'] },
    { files: [...CODE, ...SCRIPTS], extends: [tseslint.configs.base] },
    { files: CODE, extends: [tseslint.configs.recommended] },
    {
      files: [...CODE, ...SCRIPTS],
      rules: {
        ...SIZES,
        ...syntax(EVERYWHERE),
        eqeqeq: 'error',
        'no-var': 'error',
        'prefer-const': 'error',
        'no-empty': ['error', { allowEmptyCatch: false }],
      },
    },
    {
      files: CODE,
      rules: {
        '@typescript-eslint/consistent-type-imports': [
          'error',
          { fixStyle: 'inline-type-imports', disallowTypeAnnotations: false },
        ],
        '@typescript-eslint/no-unused-vars': [
          'error',
          { argsIgnorePattern: '^_', varsIgnorePattern: '^_', ignoreRestSiblings: true },
        ],
      },
    },
    {
      // Rules that need types cost seconds, so only those that find real faults are on.
      files: ['sim/**/*.ts', 'levels/**/*.ts', 'game/**/*.ts', 'game/**/*.tsx', 'test/e2e/**/*.ts'],
      languageOptions: {
        parserOptions: { ...typed, tsconfigRootDir: import.meta.dirname },
      },
      rules: {
        '@typescript-eslint/no-floating-promises': 'error',
        '@typescript-eslint/switch-exhaustiveness-check': [
          'error',
          { considerDefaultExhaustiveForUnions: true },
        ],
      },
    },
    {
      // A test file's outer block holds many tests; length says nothing about it.
      files: ['sim/**/*.ts', 'levels/**/*.ts', 'game/**/*.ts', 'game/**/*.tsx', '**/*.mjs'],
      rules: { 'max-lines-per-function': ['error', { max: 70 }] },
    },
    { files: ['sim/**/*.ts'], rules: syntax([...SIM, NO_MATH]) },
    { files: ['sim/base/math.ts'], rules: syntax([...SIM, ...ONLY_EXACT_MATH]) },
    {
      // The command line is a host: it may speak, read files and measure, but not compute.
      files: ['sim/cli.ts', 'sim/cli/**/*.ts'],
      rules: syntax([...SIM_ALWAYS, NO_MATH]),
    },
    ...exceptions.map(({ file, rule }) => ({
      files: [file],
      rules: /** @type {import('eslint').Linter.RulesRecord} */ ({ [rule]: 'off' }),
    })),
  );
}

export default configure(EXCEPTIONS);
