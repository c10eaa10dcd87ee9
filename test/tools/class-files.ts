// Writes the twelve files of a class into a folder: node --import tsx test/tools/class-files.ts DIR
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { classFiles } from '../support/class-files.ts';

const folder = process.argv[2];
if (folder === undefined) throw new Error('name the folder');
mkdirSync(folder, { recursive: true });
for (const [who, text] of classFiles().texts) writeFileSync(join(folder, `${who}.json`), text);
