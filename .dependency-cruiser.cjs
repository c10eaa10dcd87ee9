// Who may import whom. Arrows go down only:
// game -> levels -> sim/index -> run, score -> world -> network, transport -> laws -> base.
// Type-only imports count as well: a type that leaks is a wall that leaks.

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    {
      name: 'no-cycles',
      comment: 'Two files that need each other are one file, or share a third.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'imports-resolve',
      comment: 'Every import must lead to a file that is there.',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
    {
      name: 'sim-is-alone',
      comment: 'The engine knows no screen, no file and no other folder.',
      severity: 'error',
      from: { path: '^sim/', pathNot: '^sim/(cli\\.ts$|cli/)' },
      to: { pathNot: '^(sim/|node_modules/zod/)' },
    },
    {
      name: 'sim-schema-library',
      comment: 'The schema library checks what comes from outside, so only the schemas use it.',
      severity: 'error',
      from: {
        path: '^sim/',
        pathNot: [
          '^sim/(scenario|script)[\\w-]*\\.ts$',
          '^sim/(command|rules|record-own|(record|mistake)-schema)\\.ts$',
        ],
      },
      to: { path: '^node_modules/zod/' },
    },
    {
      name: 'sim-cli-uses-doors',
      comment: 'The command line may use Node, the engine and the levels; nothing else.',
      severity: 'error',
      from: { path: '^sim/(cli\\.ts$|cli/)' },
      to: { pathNot: '^(sim/|levels/|node:)', dependencyTypesNot: ['core'] },
    },
    {
      name: 'base-imports-nothing',
      comment: 'What everything stands on stands on nothing.',
      severity: 'error',
      from: { path: '^sim/base/' },
      to: { pathNot: '^sim/base/' },
    },
    {
      name: 'laws-import-base-only',
      comment: 'A law is a pure function of numbers.',
      severity: 'error',
      from: { path: '^sim/laws/' },
      to: { pathNot: '^sim/(base|laws)/' },
    },
    {
      name: 'laws-are-siblings',
      comment: 'What two laws share belongs in base, or they are one law.',
      severity: 'error',
      from: {
        path: '^sim/laws/([\\w-]+)\\.ts$',
        pathNot: '^sim/laws/(antifreeze[\\w-]*|tank)\\.ts$',
      },
      to: { path: '^sim/laws/', pathNot: '^sim/laws/$1\\.ts$' },
    },
    {
      name: 'tank-laws',
      comment: 'Bubbles rise in water: the tank may use the law of its properties.',
      severity: 'error',
      from: { path: '^sim/laws/tank\\.ts$' },
      to: { path: '^sim/laws/', pathNot: '^sim/laws/(tank|water)\\.ts$' },
    },
    {
      name: 'antifreeze-laws',
      comment: 'Mixtures blend into pure water, so they may use its law and their own data.',
      severity: 'error',
      from: { path: '^sim/laws/antifreeze[\\w-]*\\.ts$' },
      to: { path: '^sim/laws/', pathNot: '^sim/laws/(antifreeze[\\w-]*|water)\\.ts$' },
    },
    {
      name: 'players-see-views-only',
      comment: 'A player has panel, scene and drawing; who hands them out is sim/play.ts.',
      severity: 'error',
      from: { path: '^sim/player/' },
      to: { pathNot: '^sim/(player/|base/|(command|lens)\\.ts$)' },
    },
    {
      name: 'sim-by-its-door',
      comment: 'Pages and levels see the engine through sim/index.ts only.',
      severity: 'error',
      from: { path: '^(game|levels)/' },
      to: { path: '^sim/', pathNot: '^sim/index\\.ts$' },
    },
    {
      name: 'levels-by-their-door',
      comment: 'The pages see the levels through levels/index.ts only.',
      severity: 'error',
      from: { path: '^game/' },
      to: { path: '^levels/', pathNot: '^levels/index\\.ts$' },
    },
    {
      name: 'levels-are-data',
      comment: 'Levels are data and a list; they need the engine to read them, no more.',
      severity: 'error',
      from: { path: '^levels/' },
      to: { pathNot: '^(levels|sim)/' },
    },
    {
      name: 'drawing-panels-sound-apart',
      comment: 'Scenes, panels and sounds meet in session.ts, never in each other.',
      severity: 'error',
      from: { path: '^game/(scenes|panels|audio)/' },
      to: { path: '^game/(scenes|panels|audio)/', pathNot: '^game/$1/' },
    },
    {
      name: 'nobody-imports-game',
      comment: 'The pages are the top; only tests look at them.',
      severity: 'error',
      from: { pathNot: '^(game|test)/' },
      to: { path: '^game/' },
    },
    {
      name: 'nobody-imports-cli',
      comment: 'The command line is an end, not a library.',
      severity: 'error',
      from: { pathNot: '^(sim/cli\\.ts$|sim/cli/|test/)' },
      to: { path: '^sim/(cli\\.ts$|cli/)' },
    },
    {
      name: 'pages-use-what-is-shipped',
      comment: 'A package the pages need is a dependency, not a development dependency.',
      severity: 'error',
      from: { path: '^(game|sim)/', pathNot: '^(game/start\\.mjs|sim/cli\\.ts)$' },
      to: { dependencyTypes: ['npm-dev', 'npm-no-pkg', 'npm-unknown'] },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
      extensions: ['.ts', '.tsx', '.mjs', '.js', '.json', '.d.ts'],
    },
  },
};
