import { resolve } from 'node:path';
import { localDate } from '../../shared/dates.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import type { ArchiveClient } from '../archive/connect.ts';
import { openDuck } from '../archive/research/duckdb.ts';
import { fetchNorms, publishNorms } from '../archive/research/exchange-norms.ts';
import { openArchiveFiles } from '../archive/research/norms.ts';
import { storedNorms } from '../coach/norms/club-norms.ts';
import { countBands, fingerprint, type NormsDocument, readNormsKey } from '../coach/norms/norms-document.ts';
import { besideOthers } from '../coach/norms/others-like.ts';
import { listAthletes } from '../store/athletes.ts';
import type { Store } from '../store/store.ts';
import { neededOption, type OptionValues } from './command.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';

/** Publishes norms of the Parquet files to all clubs of the archive, signed. */
export async function runPublish(client: ArchiveClient, options: OptionValues): Promise<ExitCode> {
  const files = neededOption(options, 'archive publish', 'files', 'DIR');
  const key = readNormsKey(resolve(neededOption(options, 'archive publish', 'key', 'FILE')));
  const duck = await openDuck();
  try {
    await openArchiveFiles(duck, resolve(files));
    const { public_key, document } = await publishNorms(client, duck, key);
    const cells = countBands(JSON.parse(document) as NormsDocument);
    process.stdout.write(`${cells} bands published, signed with key ${fingerprint(public_key)}\n`);
    return EXIT.done;
  } finally {
    duck.close();
  }
}

/** Fetches the programme's norms to this club. */
export async function runFetchNorms(client: ArchiveClient, store: Store): Promise<ExitCode> {
  const { norms, public_key, first } = await fetchNorms(client, store);
  process.stdout.write(
    `norms of ${norms.programme} of ${norms.published_utc.slice(0, 10)}, made with version ${norms.version}\n`,
  );
  if (first)
    process.stdout.write(
      `signed with key ${fingerprint(public_key)}, trusted from now on: compare it with what the programme says\n`,
    );
  return EXIT.done;
}

/** One athlete's own normal beside others alike, from norms that are here. */
export function runBeside(store: Store, name: string): ExitCode {
  const athlete = listAthletes(store).find((one) => one.name === name);
  if (!athlete) throw new FaultError(fault('ATHLETE_NOT_FOUND.by_name', { name }, { name }));
  const norms = storedNorms(store)?.document;
  if (norms === undefined) throw new FaultError(fault('NORMS_NOT_FOUND', {}));
  const rows = besideOthers(store, norms, athlete.athlete_id, localDate(new Date()));
  const number = (value: number) => Number(value.toPrecision(4)).toString();
  for (const { quantity, band, own_mean, own_sd, own_contacts } of rows) {
    const effort =
      band.effort_to === null ? `from ${band.effort_from} %` : `${band.effort_from} to under ${band.effort_to} %`;
    process.stdout.write(
      `${quantity}, effort ${effort}, ${band.speed_from_mps} to under ${band.speed_from_mps + 1} m/s: own ${number(own_mean)}${own_sd === null ? '' : ` ± ${number(own_sd)}`} ` +
        `(${own_contacts} contacts); others like this: ${number(band.p50)}, nine of ten between ${number(band.p05)} and ${number(band.p95)} (${band.people} people)\n`,
    );
  }
  process.stdout.write(
    rows.length === 0
      ? 'no band of at least ten people alike has the speeds and efforts of this athlete\n'
      : 'A difference from others is no fault and no aim: what is normal for this athlete comes first.\n',
  );
  return EXIT.done;
}
