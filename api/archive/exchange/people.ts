import { getAthlete } from '../../store/athletes.ts';
import { nowUtc } from '../../store/store.ts';
import { Identities } from '../rows/identities.ts';
import { kindOf } from '../rows/kinds.ts';
import { markOf } from '../rows/marks.ts';
import { stampsOf } from '../rows/watch-changes.ts';
import { agreedRow, forgetPerson } from './agreed-rows.ts';
import { allowedPeople, archiveTransaction, type Exchange } from './exchange.ts';

/**
 * Before anything else is exchanged: erasures go both ways and win, then what people said about their data leaving the club. Who does
 * not agree any longer is taken out of the archive and stays in the club.
 */
export async function exchangePeople(x: Exchange): Promise<void> {
  const there = await erasedThere(x);
  await takeErasures(x, there);
  await sendErasures(x, there);
  await takeWithdrawals(x);
  await sendWithdrawals(x);
}

async function erasedThere(x: Exchange): Promise<Set<string>> {
  const { rows } = await x.client.query<{ person_id: string }>(
    'SELECT person_id FROM archive.erasures WHERE club_id = $1',
    [x.club_id],
  );
  return new Set(rows.map(({ person_id }) => person_id));
}

async function takeErasures(x: Exchange, there: Set<string>): Promise<void> {
  const ids = new Identities(x.store);
  for (const person_id of there) {
    const athlete_id = ids.numberOf('athletes', person_id);
    if (athlete_id === null) continue;
    await x.erase(athlete_id);
    x.allowed.delete(athlete_id);
    x.tell(`erased, as asked elsewhere: athlete ${athlete_id}`);
  }
}

async function sendErasures(x: Exchange, there: Set<string>): Promise<void> {
  const local = x.store.prepare('SELECT uuid, asked_utc FROM erasures WHERE uuid IS NOT NULL').all() as {
    uuid: string;
    asked_utc: string;
  }[];
  for (const { uuid, asked_utc } of local.filter((erasure) => !there.has(erasure.uuid))) {
    await archiveTransaction(x, async () => {
      await x.client.query(
        'INSERT INTO archive.erasures (club_id, person_id, asked_utc) VALUES ($1, $2, $3) ON CONFLICT DO NOTHING',
        [x.club_id, uuid, asked_utc],
      );
      await x.client.query('DELETE FROM archive.withdrawals WHERE club_id = $1 AND person_id = $2', [x.club_id, uuid]);
      await x.client.query('SELECT archive.remove_person($1, $2)', [x.club_id, uuid]);
    });
    x.tell('an erased person was erased from the archive');
  }
}

interface Withdrawal {
  person_id: string;
  status: string;
  asked_utc: string;
}

async function takeWithdrawals(x: Exchange): Promise<void> {
  const ids = new Identities(x.store);
  const { rows } = await x.client.query<Withdrawal>(
    'SELECT person_id, status, asked_utc FROM archive.withdrawals WHERE club_id = $1',
    [x.club_id],
  );
  for (const withdrawal of rows) {
    const athlete_id = ids.numberOf('athletes', withdrawal.person_id);
    if (athlete_id === null || !x.allowed.has(athlete_id)) continue;
    if (agreedSince(x, athlete_id, withdrawal)) {
      await x.client.query('DELETE FROM archive.withdrawals WHERE club_id = $1 AND person_id = $2', [
        x.club_id,
        withdrawal.person_id,
      ]);
      x.store.prepare('DELETE FROM archive_withdrawals WHERE person_uuid = ?').run(withdrawal.person_id);
      continue;
    }
    x.store.transaction(() => {
      x.store
        .prepare('UPDATE research_consents SET status = ?, status_date = ? WHERE athlete_id = ?')
        .run(withdrawal.status, withdrawal.asked_utc.slice(0, 10), athlete_id);
      noteWithdrawal(x, athlete_id, withdrawal.person_id, withdrawal.asked_utc);
    });
    x.tell(`no longer agreed, as another machine of the club says: athlete ${athlete_id}`);
  }
  x.allowed = allowedPeople(x.store);
}

/** Whether this machine heard that the person agrees after it heard, or could have heard, that they do not. */
function agreedSince(x: Exchange, athlete_id: number, { person_id, asked_utc }: Withdrawal): boolean {
  const seen = x.store.prepare('SELECT 1 FROM archive_withdrawals WHERE person_uuid = ?').get(person_id);
  if (seen !== undefined) return true;
  const consents = kindOf('research_consents');
  const known = x.store
    .prepare("SELECT row_uuid FROM archive_rows WHERE kind = 'research_consents' AND athlete_id = ?")
    .get(athlete_id) as { row_uuid: string } | undefined;
  const agreed = known && agreedRow(x.store, consents, known.row_uuid);
  if (agreed?.marks.status === markOf('given')) return false;
  return stampsOf(x.store, consents, String(athlete_id), null)('status') > asked_utc;
}

async function sendWithdrawals(x: Exchange): Promise<void> {
  const { rows } = await x.client.query<{ record_id: string }>(
    "SELECT record_id FROM archive.records WHERE club_id = $1 AND kind = 'athletes'",
    [x.club_id],
  );
  const ids = new Identities(x.store);
  for (const { record_id } of rows) {
    const athlete_id = ids.numberOf('athletes', record_id);
    if (athlete_id === null || x.allowed.has(athlete_id)) continue;
    const asked_utc = nowUtc();
    const consent = x.store.prepare('SELECT status FROM research_consents WHERE athlete_id = ?').get(athlete_id);
    const { status } = (consent as { status: string } | undefined) ?? { status: 'unknown' };
    await archiveTransaction(x, async () => {
      await x.client.query(
        'INSERT INTO archive.withdrawals (club_id, person_id, status, asked_utc) VALUES ($1, $2, $3, $4) ON CONFLICT DO NOTHING',
        [x.club_id, record_id, status, asked_utc],
      );
      await x.client.query('SELECT archive.remove_person($1, $2)', [x.club_id, record_id]);
    });
    x.store.transaction(() => noteWithdrawal(x, athlete_id, record_id, asked_utc));
    x.tell(`taken out of the archive: ${getAthlete(x.store, athlete_id, true).name} does not agree any longer`);
  }
}

function noteWithdrawal(x: Exchange, athlete_id: number, person_uuid: string, asked_utc: string): void {
  forgetPerson(x.store, athlete_id);
  x.store
    .prepare('INSERT OR REPLACE INTO archive_withdrawals (person_uuid, asked_utc) VALUES (?, ?)')
    .run(person_uuid, asked_utc);
}
