// The compiler on all our files: node test/tools/types.mjs. Each folder's project is stricter than
// the one of the whole, which knows Node and the browser: it goes first, and a file that it has
// asked about is not asked about again where it is only imported. So each is checked once, by the
// strictest project that has it. `tsc -p sim`, `-p game` and `-p .` say the same, in longer.

import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { ROOT } from './install.mjs';

/** From the strictest to the widest. */
const PROJECTS = ['sim/tsconfig.json', 'game/tsconfig.json', 'tsconfig.json'];

/** @param {string} path @returns {ts.ParsedCommandLine} of a project */
function settingsOf(path) {
  const host = {
    ...ts.sys,
    /** @param {ts.Diagnostic} fault @returns {never} */
    onUnRecoverableConfigFileDiagnostic: (fault) => {
      throw new Error(ts.flattenDiagnosticMessageText(fault.messageText, '\n'));
    },
  };
  const parsed = ts.getParsedCommandLineOfConfigFile(path, undefined, host);
  if (parsed === undefined) throw new Error(`${path} cannot be read`);
  return parsed;
}

/**
 * What the compiler objects to in a project, but for files asked about already; adds to them.
 * @param {string} path of its tsconfig.json
 * @param {Set<string>} asked names of files
 * @returns {readonly ts.Diagnostic[]}
 */
export function faultsIn(path, asked) {
  const { fileNames, options, errors } = settingsOf(path);
  const program = ts.createProgram({ rootNames: fileNames, options });
  const faults = [...errors, ...program.getOptionsDiagnostics(), ...program.getGlobalDiagnostics()];
  for (const file of program.getSourceFiles()) {
    if (file.isDeclarationFile || asked.has(file.fileName)) continue;
    if (program.isSourceFileFromExternalLibrary(file)) continue;
    asked.add(file.fileName);
    faults.push(...program.getSyntacticDiagnostics(file), ...program.getSemanticDiagnostics(file));
  }
  return faults;
}

function main() {
  /** @type {Set<string>} */
  const asked = new Set();
  const faults = PROJECTS.flatMap((project) => faultsIn(join(ROOT, project), asked));
  const format = {
    getCanonicalFileName: (/** @type {string} */ name) => name,
    getCurrentDirectory: () => ROOT,
    getNewLine: () => '\n',
  };
  console.log(ts.formatDiagnostics(faults, format));
  console.log(`${asked.size} files, ${faults.length} faults`);
  process.exitCode = faults.length === 0 && asked.size > 0 ? 0 : 1;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) main();
