/** An archive as Parquet: what a scientist writes, incrementally, and what another program reads out of it. */
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parquetReadObjects } from 'hyparquet';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type ArchiveClient, connectArchive } from '../../../api/archive/connect.ts';
import { beginExchange, type Exchange } from '../../../api/archive/exchange/exchange.ts';
import { push } from '../../../api/archive/exchange/push.ts';
import { admit, makeArchive } from '../../../api/archive/make-archive.ts';
import { openDuck } from '../../../api/archive/research/duckdb.ts';
import { fetchNorms, publishNorms } from '../../../api/archive/research/exchange-norms.ts';
import { storedNorms } from '../../../api/coach/norms/club-norms.ts';
import { readNormsKey } from '../../../api/coach/norms/norms-document.ts';
import { besideOthers } from '../../../api/coach/norms/others-like.ts';
import { countsOf, normsOf, openArchiveFiles } from '../../../api/archive/research/norms.ts';
import { writeArchiveParquet } from '../../../api/archive/research/write-parquet.ts';
import { erasePerson } from '../../../api/coach/people/erase-person.ts';
import { changeConsent } from '../../../api/export/consents.ts';
import { createAthlete, getAthlete } from '../../../api/store/athletes.ts';
import { createSession } from '../../../api/store/sessions.ts';
import { Store } from '../../../api/store/store.ts';
import { outsideTool } from '../../helpers/outside-tools.ts';
import { type PostgresServer, postgresPrograms, startPostgres } from '../../helpers/postgres.ts';
import { makeRepetition } from '../coach/make-club.ts';

const there = postgresPrograms() !== null;
const folder = mkdtempSync(join(tmpdir(), 'cinderlane-research-'));
const files = join(folder, 'files');
let server: PostgresServer;
let scientist: ArchiveClient;
let address: string;
let keeperAddress: string;
let store: Store;

/** Eleven women of 20 to 24 and four girls of 16, in one club over two years. */
beforeAll(async () => {
  if (!there) return;
  server = startPostgres();
  server.run('createdb', ['programme']);
  const owner = await connectArchive(server.address('programme'));
  await makeArchive(owner, {});
  address = server.address('programme', (await admit(owner, 'club', 'Harrow Lane')).role_name);
  scientist = await connectArchive(server.address('programme', (await admit(owner, 'scientist', 'Dr Ash')).role_name));
  keeperAddress = server.address('programme', (await admit(owner, 'keeper', 'Ada Finch')).role_name);
  await owner.end();
  store = Store.open(join(folder, 'cinderlane.sqlite'));
  const sessions = ['2025-05-05', '2026-05-05'].map(
    (session_date) => createSession(store, { session_date }).session_id,
  );
  for (let i = 0; i < 15; i++) {
    const birth_date = i < 11 ? '2003-01-01' : '2009-06-01';
    const { athlete_id } = createAthlete(store, { name: `Runner ${i}`, sex: 'female', birth_date });
    changeConsent(store, athlete_id, { status: 'given', status_date: '2025-01-01' });
    for (const [k, session] of sessions.entries())
      makeRepetition(store, session, athlete_id, { contact_time_ms: 110 + i }, { effort_percent: 90 + 10 * k });
  }
  await exchange(push);
});
afterAll(async () => {
  await scientist?.end();
  store?.close();
  server?.stop();
  rmSync(folder, { recursive: true, force: true });
});

async function exchange<Result>(what: (x: Exchange) => Promise<Result>): Promise<Result> {
  const client = await connectArchive(address);
  try {
    const erase = async (id: number) => void (await erasePerson(store, id, getAthlete(store, id, true).name));
    return await what(await beginExchange(store, client, { passphrase: null, erase }));
  } finally {
    await client.end();
  }
}

const partOf = (table: string, year: number) => {
  const { club_uuid } = store.prepare('SELECT club_uuid FROM archive_link').get() as { club_uuid: string };
  return join(files, table, `club=${club_uuid}`, `year=${year}`, 'part.parquet');
};
const rowsOf = (path: string) => {
  const bytes = readFileSync(path);
  return parquetReadObjects({
    file: bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) as ArrayBuffer,
  });
};

describe.skipIf(!there)('an archive as Parquet', () => {
  test('has every contact of the club, a file a year, with the dictionary; nobody is named', async () => {
    const report = await writeArchiveParquet(scientist, files);
    const { n } = store.prepare('SELECT count(*) AS n FROM contacts').get() as { n: number };
    expect(report).toEqual({ written: 2, unchanged: 0, removed: 0, contacts: n });
    const contacts = await rowsOf(partOf('contacts', 2026));
    expect(contacts).toHaveLength(n / 2);
    const own = store
      .prepare(
        `SELECT r.uuid AS repetition_uuid, step, round(contact_time_ms, 3) AS contact_time_ms FROM contacts c JOIN repetitions r USING (analysis_id)
           JOIN sessions USING (session_id) WHERE session_date LIKE '2026%' ORDER BY r.uuid, step`,
      )
      .all();
    expect(
      contacts.map(({ repetition_uuid, step, contact_time_ms }) => ({ repetition_uuid, step, contact_time_ms })),
    ).toEqual(own);
    const repetitions = await rowsOf(partOf('repetitions', 2025));
    // Of a year of birth alone its last day is taken.
    expect(repetitions).toHaveLength(15);
    expect(new Set(repetitions.map(({ age_years }) => age_years))).toEqual(new Set([15, 21]));
    expect(repetitions[0].athlete).toMatch(/^P[A-Z2-9]{8}$/);
    expect(readFileSync(join(files, 'dictionary.csv'), 'utf8')).toContain('contacts,contact_time_ms,number,ms,');
  });

  test('is written anew only where something changed, and where nothing is left the file goes', async () => {
    const before = statSync(partOf('contacts', 2025)).mtimeMs;
    expect(await writeArchiveParquet(scientist, files)).toMatchObject({ written: 0, unchanged: 2 });
    store
      .prepare(
        "UPDATE repetitions SET effort_percent = 95 WHERE session_id = (SELECT session_id FROM sessions WHERE session_date LIKE '2026%')",
      )
      .run();
    await exchange(push);
    expect(await writeArchiveParquet(scientist, files)).toMatchObject({ written: 1, unchanged: 1 });
    expect(statSync(partOf('contacts', 2025)).mtimeMs).toBe(before);
    expect(new Set((await rowsOf(partOf('repetitions', 2026))).map((row) => row.effort_percent))).toEqual(
      new Set([95]),
    );
    const session = store.prepare("SELECT session_id FROM sessions WHERE session_date LIKE '2025%'").get() as {
      session_id: number;
    };
    store.prepare('UPDATE sessions SET session_date = ? WHERE session_id = ?').run('2024-05-05', session.session_id);
    await exchange(push);
    expect(await writeArchiveParquet(scientist, files)).toMatchObject({ written: 1, removed: 2 });
  });

  test('gives norms in DuckDB that count people, not steps, tell nothing of fewer than ten, and never mix minors with adults', async (context) => {
    const tool = outsideTool('@duckdb/node-api/lib/index.js');
    if (!tool) return context.skip('no $OUTSIDE_TOOLS: see tests/helpers/outside-tools.ts');
    process.env.CINDERLANE_TOOLS = process.env.OUTSIDE_TOOLS;
    const duck = await openDuck();
    await openArchiveFiles(duck, files);
    expect((await countsOf(duck)).map(({ year, people }) => [Number(year), people])).toEqual([
      [2024, 15],
      [2026, 15],
    ]);
    const cells = await normsOf(duck, 'contact_time_ms');
    expect(cells.length).toBeGreaterThan(2);
    // Four girls are too few to be told of.
    expect(cells.every(({ age_from, people, sex }) => age_from === 20 && people === 11 && sex === 'female')).toBe(true);
    // By hand: the means of eleven people at one speed, each 1 ms longer than the one before, have the standard deviation of 0 to 10.
    for (const { sd, p05, p50, p95 } of cells) {
      expect(sd).toBeCloseTo(Math.sqrt(11), 3);
      expect(p95 - p50).toBeCloseTo(4.5, 3);
      expect(p50 - p05).toBeCloseTo(4.5, 3);
    }
    // Published, signed and fetched: the girls, of whom there are too few, get nothing from it, the women themselves do.
    const keeper = await connectArchive(keeperAddress);
    await publishNorms(keeper, duck, readNormsKey(join(folder, 'norms.pem')));
    await keeper.end();
    const client = await connectArchive(address);
    expect(await fetchNorms(client, store)).toMatchObject({ first: true, norms: { fewest_people: 10 } });
    await client.end();
    const beside = besideOthers(store, storedNorms(store)!.document, 1, '2026-06-01').filter(
      ({ quantity }) => quantity === 'contact_time_ms',
    );
    expect(beside.length).toBeGreaterThan(2);
    // The first of the eleven has the shortest contacts.
    for (const { own_mean, band } of beside) expect(own_mean).toBeCloseTo(band.mean - 5, 1);
    expect(besideOthers(store, storedNorms(store)!.document, 15, '2026-06-01')).toEqual([]);
    await expect(normsOf(duck, 'name')).rejects.toMatchObject({ code: 'QUANTITY_UNKNOWN' });
    await expect(openArchiveFiles(duck, join(folder, 'nowhere'))).rejects.toMatchObject({ code: 'FILE_NOT_FOUND' });
    duck.close();
  });

  test('says how to get DuckDB where it is not', async () => {
    const before = process.env.CINDERLANE_TOOLS;
    process.env.CINDERLANE_TOOLS = folder;
    writeFileSync(join(folder, 'package.json'), '{}');
    await expect(openDuck()).rejects.toMatchObject({ code: 'TOOL_MISSING' });
    process.env.CINDERLANE_TOOLS = before ?? '';
    if (before === undefined) delete process.env.CINDERLANE_TOOLS;
  });
});
