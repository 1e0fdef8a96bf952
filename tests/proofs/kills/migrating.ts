import { copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { ServerProcess } from '../../helpers/server-process.ts';
import { isSound, wait } from './place.ts';
import type { Scene } from './scenes.ts';

const MIGRATIONS = new URL('../../../api/store/migrations/', import.meta.url);
const ATHLETES = 400;

/** A database as the first version made it, with rows. */
function oldDatabase(file: string): void {
  const database = new Database(file);
  database.exec('CREATE TABLE migrations (name TEXT PRIMARY KEY, applied_utc TEXT NOT NULL) STRICT');
  const now = '2026-01-01T00:00:00.000Z';
  for (const name of readdirSync(MIGRATIONS).sort().slice(0, 1)) {
    database.exec(readFileSync(new URL(name, MIGRATIONS), 'utf8'));
    database.prepare('INSERT INTO migrations VALUES (?, ?)').run(name, now);
  }
  const add = database.prepare('INSERT INTO athletes (name, created_utc, updated_utc) VALUES (?, ?, ?)');
  for (let n = 0; n < ATHLETES; n++) add.run(`Athlete ${n}`, now, now);
  database.close();
}

/** A start that is killed while it brings the database to the newest shape: the next one finishes, and every row is there. */
export const migrating: Scene = async (folder, random, round) => {
  const old = join(folder, 'old.sqlite');
  rmSync(old, { force: true });
  oldDatabase(old);
  const data = join(folder, 'data');
  rmSync(data, { recursive: true, force: true });
  mkdirSync(data);
  copyFileSync(old, join(data, 'cinderlane.sqlite'));
  const words = ['api/command-line/cinderlane.mjs', 'serve', '--port', '0', '--data', data];
  const child = spawn(process.execPath, words, { stdio: 'ignore' });
  const ended = new Promise((resolve) => child.once('exit', resolve));
  // From the moment the database is touched on; before that nothing could go wrong.
  while (!readdirSync(data).includes('cinderlane.sqlite-wal') && child.exitCode === null) await wait(2);
  await wait(120 * random());
  child.kill('SIGKILL');
  await ended;
  const server = await ServerProcess.start(data);
  await server.close();
  const file = join(data, 'cinderlane.sqlite');
  const database = new Database(file, { readonly: true });
  const { n } = database.prepare('SELECT count(*) AS n FROM athletes').get() as { n: number };
  const applied = (database.prepare('SELECT count(*) AS n FROM migrations').get() as { n: number }).n;
  database.close();
  const known = readdirSync(MIGRATIONS).length;
  return n === ATHLETES && applied === known && isSound(file)
    ? []
    : [`round ${round}: ${n} of ${ATHLETES} rows, ${applied} of ${known} migrations`];
};
