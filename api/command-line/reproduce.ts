import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { type Reproduced, reproduce } from '../export/motion-bids/reproduce.ts';
import { changedFiles } from '../export/checksums.ts';
import type { Command } from './command.ts';
import { EXIT } from './exit-codes.ts';

export const reproduceCommand: Command = {
  name: 'reproduce',
  summary: 'Analyses an exported Motion-BIDS data set again and says what differs, to the last digit.',
  operands: 'DIR',
  options: { json: { value: 'FILE', help: 'the comparison as JSON as well' } },
  details:
    'Checks every file against its checksum first. Exit code 0: every file is as exported and every table has the same bytes; 1: something differs.',
  run: async (options, operands) => {
    const folder = resolve(operands[0] ?? '.');
    const changed = changedFiles(folder);
    if (changed === null)
      process.stdout.write('no checksums in this data set: whether its files are as exported is not known\n');
    else if (changed.length === 0) process.stdout.write('every file is as it was exported (SHA-256)\n');
    for (const { file, problem } of changed ?? []) process.stdout.write(`${file}: ${problem} since the export\n`);
    const results: Reproduced[] = [];
    for (const result of reproduce(folder)) {
      results.push(result);
      if (!result.same) process.stdout.write(`${result.file}: ${wordsOf(result)}\n`);
    }
    const same = results.filter((result) => result.same).length;
    process.stdout.write(`${same} of ${results.length} repetitions have the same bytes\n`);
    if (options.json) writeFileSync(resolve(options.json as string), `${JSON.stringify(results, null, 1)}\n`);
    return same === results.length && (changed ?? []).length === 0 ? EXIT.done : EXIT.failed;
  },
};

function wordsOf({ problem, differing_cells, greatest, made_by, made_again_by }: Reproduced): string {
  const versions = made_by === made_again_by ? made_by : `made by ${made_by}, now ${made_again_by}`;
  if (problem) return `${problem} (${versions})`;
  const worst = greatest.map(({ column, difference }) => `${column} by up to ${difference.toPrecision(2)}`).join(', ');
  return `${differing_cells} cells differ: ${worst} (${versions})`;
}
