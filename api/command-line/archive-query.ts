import { resolve } from 'node:path';
import { readFileSync } from 'node:fs';
import { FaultError, fault } from '../../shared/fault.ts';
import { type Duck, openDuck } from '../archive/research/duckdb.ts';
import { countsOf, normsOf, openArchiveFiles } from '../archive/research/norms.ts';
import { csvText } from '../csv-text.ts';
import { neededOption, type OptionValues } from './command.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';

/** Questions that are asked often; others are asked in SQL. */
export const QUESTIONS = ['norms', 'counts', 'sql'] as const;

/** Asks the files that `archive parquet` wrote; the archive itself is not needed. Answers as CSV on standard output. */
export async function runQuery(options: OptionValues, question: string | undefined): Promise<ExitCode> {
  if (!QUESTIONS.includes(question as 'norms'))
    throw new FaultError(fault('OPTION_UNREADABLE.action', { found: question ?? '', words: [...QUESTIONS] }));
  const files = neededOption(options, 'archive query', 'files', 'DIR');
  const duck = await openDuck();
  try {
    await openArchiveFiles(duck, resolve(files));
    const rows = await answer(duck, question as (typeof QUESTIONS)[number], options);
    if (rows.length > 0) process.stdout.write(csvText(rows));
    return EXIT.done;
  } finally {
    duck.close();
  }
}

async function answer(duck: Duck, question: (typeof QUESTIONS)[number], options: OptionValues) {
  if (question === 'counts') return countsOf(duck);
  if (question === 'norms') return normsOf(duck, (options.quantity as string | undefined) ?? 'contact_time_ms');
  return duck.rows(readSql(neededOption(options, 'archive query sql', 'sql', 'FILE')));
}

function readSql(file: string): string {
  try {
    return readFileSync(resolve(file), 'utf8');
  } catch {
    throw new FaultError(fault('FILE_NOT_FOUND.sql', { file }, { file }));
  }
}
