import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { FaultError, fault } from '../../shared/fault.ts';
import type { ArchiveClient } from '../archive/connect.ts';
import { compareWithArchive } from '../archive/exchange/compare.ts';
import { countWaiting } from '../archive/exchange/count-waiting.ts';
import { beginExchange, type Exchange } from '../archive/exchange/exchange.ts';
import { pull } from '../archive/exchange/pull.ts';
import { push } from '../archive/exchange/push.ts';
import { checkSchema } from '../archive/upgrade-schema.ts';
import { erasePerson } from '../coach/people/erase-person.ts';
import { DATABASE_NAME, findRunningServer } from '../server/running-server.ts';
import { getAthlete } from '../store/athletes.ts';
import { Store } from '../store/store.ts';
import { clientOf } from './api-client.ts';
import type { OptionValues } from './command.ts';
import { dataFolder } from './data-folder.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import { passphraseOf } from './passphrase.ts';

/** Runs what one machine of a club does with its archive. */
export function withExchange(
  client: ArchiveClient,
  options: OptionValues,
  work: (x: Exchange) => Promise<ExitCode>,
): Promise<ExitCode> {
  return withStore(options, async (store) => {
    const erase = eraser(store, dataFolder(options));
    const tell = (line: string) => void process.stdout.write(`${line}\n`);
    return work(await beginExchange(store, client, { passphrase: passphraseOf(options), erase, tell }));
  });
}

/**
 * Works on the database of a club that is there.
 * @throws FaultError FILE_NOT_FOUND where there is no such folder: a name that was mistyped must not become a new club
 */
export async function withStore<Result>(
  options: OptionValues,
  work: (store: Store) => Promise<Result>,
): Promise<Result> {
  const folder = dataFolder(options);
  if (!existsSync(folder)) throw new FaultError(fault('FILE_NOT_FOUND.data_folder', { folder }, { file: folder }));
  const store = Store.open(join(folder, DATABASE_NAME));
  try {
    return await work(store);
  } finally {
    store.close();
  }
}

/** By the server that works on the folder, which stops what it does with the person; else here. */
function eraser(store: Store, folder: string): (athlete_id: number) => Promise<void> {
  return async (athlete_id) => {
    const { name } = getAthlete(store, athlete_id, true);
    const running = await findRunningServer(folder);
    if (running === null) await erasePerson(store, athlete_id, name);
    else await clientOf(running).call('POST', `/coach/athletes/${athlete_id}/erase`, { name });
  };
}

export async function runPush(x: Exchange): Promise<ExitCode> {
  const started = performance.now();
  const { rows, repetitions, stayed, raw_files_left } = await push(x);
  const seconds = ((performance.now() - started) / 1000).toFixed(1);
  process.stdout.write(
    `sent: ${repetitions} repetitions with what they rest on, ${rows} other rows, in ${seconds} s\n`,
  );
  if (stayed > 0)
    process.stdout.write(`${stayed} athletes did not agree to research: their data stay on this machine alone\n`);
  if (raw_files_left > 0)
    process.stdout.write(
      `${raw_files_left} raw files hold a name and stay here; with the club's passphrase they go sealed\n`,
    );
  if (!x.hidden.readable)
    process.stdout.write(
      'names and notes stay here; with a passphrase they go sealed, and a lost machine gets them back\n',
    );
  return EXIT.done;
}

export async function runPull(x: Exchange): Promise<ExitCode> {
  const started = performance.now();
  const { rows, repetitions, left_out } = await pull(x);
  const seconds = ((performance.now() - started) / 1000).toFixed(1);
  process.stdout.write(
    `brought: ${repetitions} repetitions with what they rest on, ${rows} other rows, in ${seconds} s\n`,
  );
  if (left_out > 0)
    process.stdout.write(`${left_out} rows were left out: they are sealed, or what they belong to is not here\n`);
  return EXIT.done;
}

/** Whoever is no club is told of all of them. */
export async function isClub(client: ArchiveClient): Promise<boolean> {
  await checkSchema(client);
  const { rows } = await client.query(
    "SELECT pg_has_role(session_user, 'cinderlane_club', 'MEMBER') AND NOT rolsuper AS club FROM pg_roles WHERE rolname = session_user",
  );
  return rows[0].club === true;
}

export async function runStatus(x: Exchange, check: boolean): Promise<ExitCode> {
  const { rows } = await x.client.query<{ label: string; last_push_utc: string | null; last_pull_utc: string | null }>(
    'SELECT label, last_push_utc, last_pull_utc FROM archive.machines WHERE club_id = $1 ORDER BY label',
    [x.club_id],
  );
  for (const { label, last_push_utc, last_pull_utc } of rows)
    process.stdout.write(`${label}: last sent ${last_push_utc ?? 'never'}, last brought ${last_pull_utc ?? 'never'}\n`);
  process.stdout.write(`level ${x.level}; ${x.allowed.size} athletes agreed to research\n`);
  const { repetitions, rows: others } = await countWaiting(x);
  process.stdout.write(
    repetitions + others === 0
      ? 'nothing waits to be sent\n'
      : `waiting to be sent: ${repetitions} repetitions with what they rest on, ${others} other rows\n`,
  );
  tellConflicts(x);
  if (!check) return EXIT.done;
  let apart = 0;
  for (const { table, equal, only_here, only_there, different } of await compareWithArchive(x)) {
    const differences = only_here.length + only_there.length + different.length;
    apart += differences;
    if (equal + differences === 0) continue;
    const told = `${only_here.length} only here, ${only_there.length} only there, ${different.length} different`;
    process.stdout.write(`${table}: ${equal} equal${differences === 0 ? '' : `, ${told}`}\n`);
  }
  process.stdout.write(apart === 0 ? 'everything that may leave is there, and equal\n' : `${apart} differ\n`);
  return apart === 0 ? EXIT.done : EXIT.failed;
}

/** Fields that two machines changed: both values, the kept one first. */
function tellConflicts(x: Exchange): void {
  const rows = x.store
    .prepare('SELECT kind, field, kept, kept_utc, other, other_utc FROM archive_conflicts ORDER BY found_utc')
    .all() as { kind: string; field: string; kept: string; kept_utc: string; other: string; other_utc: string }[];
  for (const { kind, field, kept, kept_utc, other, other_utc } of rows)
    process.stdout.write(
      `changed on two machines: ${kind} ${field}: kept ${kept} of ${kept_utc}, not ${other} of ${other_utc}\n`,
    );
}
