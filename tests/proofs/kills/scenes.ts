/** What a server is killed in the middle of. Each scene ends with what was lost or left, in words; nothing when all is well. */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { backUp } from '../../../api/backup/make-backup.ts';
import { openSealedFile } from '../../../api/backup/sealed-file.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import { decodeRecords, encodeRecord } from '../../../shared/packet-record.ts';
import { numberedBlock } from '../../helpers/numbered-samples.ts';
import { ServerProcess } from '../../helpers/server-process.ts';
import { sprintFiles } from '../../helpers/sprint-files.ts';
import { ask, filesWith, isSound, wait } from './place.ts';

export type Random = () => number;
/** @param folder of its own, empty at first and kept between rounds of the scene */
export type Scene = (folder: string, random: Random, round: number) => Promise<string[]>;

const SPRINT = sprintFiles().left.split('\n');
const DATABASE = 'cinderlane.sqlite';

async function newPlace(address: string, name: string) {
  const athlete = await ask(address, 'POST', '/athletes', { name });
  const session = await ask(address, 'POST', '/sessions', { session_date: '2026-03-02' });
  return { athlete_id: athlete!.body.athlete_id as number, session_id: session!.body.session_id as number };
}

function form(place: { athlete_id: number; session_id: number }, text: string): FormData {
  const data = new FormData();
  for (const [key, value] of Object.entries({ ...place, mounting: 'foot' })) data.set(key, String(value));
  data.set('left', new Blob([text]), 'left.csv');
  return data;
}

/** Imports that were acknowledged are there after the kill, whole, and come to an end. */
export const importing: Scene = async (folder, random, round) => {
  const server = await ServerProcess.start(folder);
  const place = await newPlace(server.address, `Import ${round}`);
  const sent: { import_id: number; sha256: string }[] = [];
  let alive = true;
  const writer = (async () => {
    for (let n = 0; alive; n++) {
      const text = `${SPRINT.slice(0, 1200 + ((round * 7 + n) % 900)).join('\n')}\n\n${round}.${n}`;
      const answer = await ask(server.address, 'POST', '/imports', form(place, text));
      if (answer?.status === 202)
        sent.push({ import_id: answer.body.import_id, sha256: createHash('sha256').update(text).digest('hex') });
    }
  })();
  await wait(30 + 700 * random());
  alive = false;
  await server.kill();
  await writer;
  const again = await ServerProcess.start(folder);
  const lost: string[] = [];
  for (const { import_id, sha256 } of sent) {
    let answer = await ask(again.address, 'GET', `/imports/${import_id}`);
    for (let n = 0; n < 600 && ['queued', 'working'].includes(answer?.body.state); n++) {
      await wait(50);
      answer = await ask(again.address, 'GET', `/imports/${import_id}`);
    }
    const { state, files = [] } = answer?.body ?? {};
    if (files[0]?.raw_sha256 !== sha256 || ['queued', 'working'].includes(state))
      lost.push(`import ${import_id} is ${state}, its file ${files[0]?.raw_sha256 === sha256 ? 'there' : 'lost'}`);
  }
  await again.close();
  return isSound(join(folder, DATABASE)) ? lost : [...lost, 'the database is damaged'];
};

/** After an acknowledged erasure no file holds the name; one that was only begun is finished by the next start. */
export const erasing: Scene = async (folder, random, round) => {
  // A full stop ends it: in the file a date may follow a name, and the seventh with 2026 behind it is not the seventy-second.
  const name = `Zephyrine Quaggamark ${round}.`;
  const server = await ServerProcess.start(folder);
  const place = await newPlace(server.address, name);
  const data = form(place, `${SPRINT.slice(0, 900).join('\n')}\n`);
  data.set('notes', name);
  await ask(server.address, 'POST', '/imports', data);
  let acknowledged = false;
  const erased = ask(server.address, 'POST', `/coach/athletes/${place.athlete_id}/erase`, { name }).then((answer) => {
    acknowledged = answer?.status === 200;
  });
  await Promise.race([wait(250 * random()), random() < 0.2 ? erased : wait(10_000)]);
  await server.kill();
  await erased;
  const left = acknowledged ? filesWith(folder, name) : [];
  const again = await ServerProcess.start(folder);
  await again.close();
  const database = new Database(join(folder, DATABASE), { readonly: true });
  const asked = database.prepare('SELECT done_utc FROM erasures WHERE athlete_id = ?').get(place.athlete_id) as
    | { done_utc: string | null }
    | undefined;
  database.close();
  if (asked && asked.done_utc === null) left.push('an erasure that was begun is not done after the next start');
  if (asked) left.push(...filesWith(folder, name));
  return left.map((what) => `${name}: ${what}`);
};

/** A backup that is killed leaves the one before as it was; one that ended well opens. */
export const backingUp: Scene = async (folder, random, round) => {
  const words = 'four words picked at random';
  const source = join(folder, DATABASE);
  if (!existsSync(source)) {
    const server = await ServerProcess.start(folder);
    const place = await newPlace(server.address, 'Backed up');
    for (let n = 0; n < 6; n++)
      await ask(server.address, 'POST', '/imports', form(place, `${SPRINT.join('\n')}\n${n}`));
    await server.close();
  }
  const copies = join(folder, 'copies');
  mkdirSync(copies, { recursive: true });
  const copy = join(copies, 'copy.sealed');
  if (!existsSync(copy)) await backUp(source, copy, words);
  const child = spawn(
    process.execPath,
    ['api/command-line/cinderlane.mjs', 'backup', '--out', copy, '--data', folder],
    { env: { ...process.env, CINDERLANE_PASSPHRASE: words }, stdio: 'ignore' },
  );
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  await Promise.race([wait(300 + 1500 * random()), ended]);
  child.kill('SIGKILL');
  await ended;
  const opened = join(folder, 'opened.sqlite');
  try {
    openSealedFile(copy, opened, words);
  } catch (error) {
    return [`round ${round}: the copy does not open: ${error}`];
  }
  return isSound(opened) && isSound(source) ? [] : [`round ${round}: a database is damaged`];
};

/** Packets whose batch was acknowledged are in the log after the kill. */
export const capturing: Scene = async (folder, random, round) => {
  const [description] = shippedDescriptions();
  const settings = defaultSettings(description);
  const sensor = `browser-${round}`;
  const server = await ServerProcess.start(folder);
  const place = await newPlace(server.address, `Captured ${round}`);
  const put = {
    name: sensor,
    description_id: description.id,
    side: 'left',
    mounting: 'foot',
    athlete_id: place.athlete_id,
  };
  await ask(server.address, 'PUT', `/capture/sensors/${sensor}`, put);
  const announced = { name: sensor, service_uuid: description.service_uuid, battery_percent: null };
  await ask(server.address, 'POST', `/capture/browser/${sensor}`, announced);
  const started = await ask(server.address, 'POST', '/capture/start', {
    session_id: place.session_id,
    sensor_ids: [sensor],
  });
  if (started?.status !== 200) return [`round ${round}: no capture: ${JSON.stringify(started?.body).slice(0, 200)}`];
  const packets = encodePackets(description, settings, numberedBlock(description, 20_000));
  const ten = (n: number) =>
    Buffer.concat(
      packets
        .slice(10 * n, 10 * n + 10)
        .map(({ bytes, first_sample }) => encodeRecord({ kind: 'packet', arrival_s: first_sample / 1000, bytes })),
    );
  let taken = 0;
  let alive = true;
  const sender = (async () => {
    while (alive && 10 * taken < packets.length) {
      const query = `page=p&first=${10 * taken}&sent_s=${(taken + 1) / 100}`;
      const answer = await ask(server.address, 'POST', `/capture/browser/${sensor}/packets?${query}`, ten(taken));
      const next = answer?.status === 200 ? Math.floor((answer.body.next_record as number) / 10) : taken;
      if (next === taken) await wait(5);
      taken = next;
    }
  })();
  await wait(200 + 800 * random());
  alive = false;
  await server.kill();
  await sender;
  const captures = join(folder, 'captures');
  const kept = readdirSync(captures, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith(`${sensor}.packets`))
    .map(
      (name) =>
        decodeRecords(readFileSync(join(captures, name))).records.filter(({ kind }) => kind === 'packet').length,
    );
  const found = kept.reduce((sum, count) => sum + count, 0);
  const again = await ServerProcess.start(folder);
  await ask(again.address, 'POST', '/capture/stop', { discard_waiting: true });
  await again.close();
  return found >= 10 * taken ? [] : [`round ${round}: ${10 * taken} packets acknowledged, ${found} kept`];
};
