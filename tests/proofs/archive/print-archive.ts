/**
 * npm run proof:archive [-- KILLS CLUBS SESSIONS RECORDED]: invented clubs of 30 athletes send a year to one archive at the same time, killed at
 * random moments; then new machines of one or more of them bring it back, killed as well. Prints what is in the archive, and whether every club
 * and it are equal by checksum. Without numbers: 100 kills, 20 clubs, 26 sessions of 2 repetitions each (624,000 contacts), 25 repetitions
 * a club with raw signals. Small: npm run proof:archive -- 4 2 4 2.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectArchive } from '../../../api/archive/connect.ts';
import { compareWithArchive } from '../../../api/archive/exchange/compare.ts';
import { beginExchange } from '../../../api/archive/exchange/exchange.ts';
import { admit, makeArchive } from '../../../api/archive/make-archive.ts';
import { withStore } from '../../api/archive/archived-club.ts';
import { startPostgres } from '../../helpers/postgres.ts';
import { uniform } from '../../helpers/random.ts';
import { inventClub } from './invented-club.ts';

const [kills, clubs, sessions, recorded] = [100, 20, 26, 25].map((usual, i) => Number(process.argv[2 + i] ?? usual));
const LANES = 4;
const random = uniform(1);
const folder = mkdtempSync(join(tmpdir(), 'cinderlane-programme-'));
const server = startPostgres();
process.once('exit', () => {
  server.stop();
  rmSync(folder, { recursive: true, force: true });
});
const say = (line: string) => console.log(`${((performance.now() - begun) / 1000).toFixed(0).padStart(5)} s  ${line}`);
const begun = performance.now();

server.run('createdb', ['programme']);
const owner = await connectArchive(server.address('programme'));
await makeArchive(owner, { level: 'named' });
const places: { name: string; folder: string; address: string }[] = [];
for (let c = 0; c < clubs; c++) {
  const name = `Club ${c + 1}`;
  const { role_name } = await admit(owner, 'club', name);
  const place = { name, folder: join(folder, `club-${c + 1}`), address: server.address('programme', role_name) };
  await inventClub(place.folder, c + 1, { athletes: 30, sessions, repetitions: 2, recorded });
  places.push(place);
}
say(`${clubs} clubs were invented`);

let killed = 0;
await inLanes(places, (place) => untilDone('push', place.folder, place.address, kills));
const sentKills = killed;
say(`sent by ${clubs} clubs, ${LANES} at a time, killed ${sentKills} times`);

const wrong: string[] = [];
for (const place of places) wrong.push(...(await differences(place.name, place.folder, place.address)));
const { rows } = await owner.query<Record<string, number>>(
  `SELECT (SELECT count(*) FROM archive.people)::int AS people, (SELECT count(*) FROM archive.repetitions)::int AS repetitions,
     (SELECT count(*) FROM archive.analyses)::int AS analyses, (SELECT count(*) FROM archive.contacts)::int AS contacts,
     (SELECT count(*) FROM archive.recordings)::int AS recordings, (SELECT sum(length(bytes)) FROM archive.recording_chunks)::float8 AS samples,
     (SELECT sum(length(bytes)) FROM archive.raw_chunks)::float8 AS raw, pg_database_size(current_database())::float8 AS size`,
);
const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(1)} MB`;
const [has] = rows;
say(
  `in the archive: ${has.people} people, ${has.repetitions} repetitions, ${has.analyses} analyses, ${has.contacts} contacts, ${has.recordings} recordings`,
);
say(
  `${megabytes(has.samples)} of samples, ${megabytes(has.raw)} of raw files, ${megabytes(has.size)} in all; the clubs' files: ${megabytes(sizeOfClubs())}`,
);

// A quick machine sends everything before it was killed that often: further clubs come back to new machines until it was.
const most = kills + Math.ceil(kills / 5);
let machines = 0;
for (const place of places) {
  if (machines > 0 && killed >= kills) break;
  machines += 1;
  const second = join(folder, `second-machine-${machines}`);
  mkdirSync(second);
  await untilDone('pull', second, place.address, most);
  wrong.push(...(await differences(`a new machine of ${place.name}`, second, place.address)));
}
say(`brought to ${machines} new machines, killed ${killed - sentKills} times`);
for (const what of wrong) console.log(what);
console.log(`${killed} kills, ${wrong.length} clubs or machines that differ from the archive`);
await owner.end();
process.exit(wrong.length > 0 ? 1 : 0);

/** Runs an exchange again and again until it ends by itself; killed while kills are left. */
async function untilDone(action: 'push' | 'pull', data: string, address: string, most: number): Promise<void> {
  for (;;) {
    const child = spawn(
      process.execPath,
      ['api/command-line/cinderlane.mjs', 'archive', action, '--data', data, '--archive', address],
      {
        stdio: ['ignore', 'ignore', 'inherit'],
      },
    );
    const over = ended(child);
    if (killed < most) {
      killed += 1;
      // Anywhere from its start to some seconds into its work.
      const timer = setTimeout(() => child.kill('SIGKILL'), 500 + 5000 * random());
      const code = await over;
      clearTimeout(timer);
      if (code !== null) killed -= 1;
      if (code === 0) return;
      if (code !== null) throw new Error(`${action} ended with ${code}`);
      continue;
    }
    const code = await over;
    if (code === 0) return;
    throw new Error(`${action} ended with ${code}`);
  }
}

function ended(child: ChildProcess): Promise<number | null> {
  return new Promise((resolve) => child.once('exit', (code) => resolve(code)));
}

async function differences(name: string, data: string, address: string): Promise<string[]> {
  return withStore(data, async (store) => {
    const client = await connectArchive(address);
    try {
      const x = await beginExchange(store, client, { passphrase: null, erase: async () => {} });
      const apart = (await compareWithArchive(x)).filter(
        (one) => one.only_here.length + one.only_there.length + one.different.length > 0,
      );
      return apart.map(
        (one) =>
          `${name}, ${one.table}: ${one.only_here.length} only here, ${one.only_there.length} only there, ${one.different.length} differ`,
      );
    } finally {
      await client.end();
    }
  });
}

async function inLanes<Item>(items: Item[], work: (item: Item) => Promise<void>): Promise<void> {
  const waiting = items[Symbol.iterator]();
  const lane = async () => {
    for (const item of waiting) await work(item);
  };
  await Promise.all(Array.from({ length: LANES }, lane));
}

function sizeOfClubs(): number {
  return places.reduce((sum, place) => sum + statSync(join(place.folder, 'cinderlane.sqlite')).size, 0);
}
