import { hostname } from 'node:os';
import { FaultError, fault } from '../../../shared/fault.ts';
import { keyOf } from '../../backup/sealed-file.ts';
import type { Store } from '../../store/store.ts';
import { uuid7 } from '../../store/uuid.ts';
import { VERSION } from '../../version.ts';
import { type ArchiveClient, inTransaction } from '../connect.ts';
import type { ArchiveLevel } from '../make-archive.ts';
import { watchChanges } from '../rows/watch-changes.ts';
import { checkSchema } from '../upgrade-schema.ts';
import { type HiddenFields, PLAIN, sealedFields, WITHHELD } from './hidden-fields.ts';

/** One machine of a club, connected to the archive. */
export interface Exchange {
  store: Store;
  client: ArchiveClient;
  club_id: string;
  machine_id: string;
  level: ArchiveLevel;
  hidden: HiddenFields;
  /** Athletes whose data may leave: those who agreed. */
  allowed: Set<number>;
  /** Erases a person on this machine for good, with everything that works on them stopped. */
  erase: (athlete_id: number) => Promise<void>;
  tell: (line: string) => void;
}

export interface ExchangeOptions {
  passphrase: string | null;
  erase: (athlete_id: number) => Promise<void>;
  tell?: (line: string) => void;
}

const KEY_CHECK = 'cinderlane archive key';

interface ClubRow {
  club_id: string;
  salt: Buffer;
  key_check: Buffer | null;
  level: ArchiveLevel;
  archive_uuid: string;
}

/**
 * Begins an exchange: who is connected, which programme it is, and what this machine may read of it.
 * @throws FaultError ARCHIVE_REFUSED when the user is no club, ARCHIVE_ANOTHER, ARCHIVE_KEY_DIFFERS, ARCHIVE_OLDER, ARCHIVE_NEWER
 */
export async function beginExchange(store: Store, client: ArchiveClient, options: ExchangeOptions): Promise<Exchange> {
  const host = client.host;
  await checkSchema(client);
  const { rows } = await client.query<ClubRow>(
    `SELECT club_id, salt, key_check, level, archive_uuid FROM archive.clubs, archive.programme
       WHERE club_id = (SELECT archive.own_club())`,
  );
  const [club] = rows;
  if (!club) throw new FaultError(fault('ARCHIVE_REFUSED.no_club', { host }, { host }));
  const hidden = await hiddenFields(client, club, options.passphrase);
  const machine_id = joinArchive(store, club.archive_uuid, club.club_id);
  watchChanges(store);
  await client.query(
    `INSERT INTO archive.machines (club_id, machine_id, label, version) VALUES ($1, $2, $3, $4)
       ON CONFLICT (club_id, machine_id) DO UPDATE SET label = excluded.label, version = excluded.version`,
    [club.club_id, machine_id, hostname(), VERSION],
  );
  return {
    store,
    client,
    club_id: club.club_id,
    machine_id,
    level: club.level,
    hidden,
    allowed: allowedPeople(store),
    erase: options.erase,
    tell: options.tell ?? (() => {}),
  };
}

/** Athletes who agreed, those marked as deleted among them: a deletion can be taken back. */
export function allowedPeople(store: Store): Set<number> {
  const rows = store.prepare("SELECT athlete_id FROM research_consents WHERE status = 'given'").all();
  return new Set((rows as { athlete_id: number }[]).map(({ athlete_id }) => athlete_id));
}

async function hiddenFields(client: ArchiveClient, club: ClubRow, passphrase: string | null): Promise<HiddenFields> {
  if (club.level === 'named') return PLAIN;
  if (passphrase === null) return WITHHELD;
  const sealed = sealedFields(keyOf(passphrase, club.salt));
  if (club.key_check !== null) {
    sealed.openBytes(club.key_check, KEY_CHECK);
    return sealed;
  }
  const { rowCount } = await client.query(
    'UPDATE archive.clubs SET key_check = $2 WHERE club_id = $1 AND key_check IS NULL',
    [club.club_id, sealed.packBytes(Buffer.from(KEY_CHECK), KEY_CHECK)],
  );
  if (rowCount === 1) return sealed;
  // Another machine was first, a moment ago.
  const { rows } = await client.query<ClubRow>('SELECT * FROM archive.clubs WHERE club_id = $1', [club.club_id]);
  sealed.openBytes(rows[0].key_check!, KEY_CHECK);
  return sealed;
}

/** Ties this database to one club of one archive, once. @returns the identifier of this machine */
function joinArchive(store: Store, archive_uuid: string, club_uuid: string): string {
  const link = store.prepare('SELECT * FROM archive_link').get() as
    | { archive_uuid: string; club_uuid: string; machine_uuid: string }
    | undefined;
  if (link) {
    if (link.archive_uuid === archive_uuid && link.club_uuid === club_uuid) return link.machine_uuid;
    throw new FaultError(fault('ARCHIVE_ANOTHER.club', { folder: store.file }, { file: store.file }));
  }
  const machine_uuid = uuid7();
  store
    .prepare('INSERT INTO archive_link (link_id, archive_uuid, club_uuid, machine_uuid) VALUES (1, ?, ?, ?)')
    .run(archive_uuid, club_uuid, machine_uuid);
  return machine_uuid;
}

/**
 * Runs one transaction in the archive that is alone among those of its club: changes are counted in the order they are committed.
 * @param work is given the number of its change
 */
export function archiveTransaction<Result>(
  { client, club_id }: Exchange,
  work: (change: number) => Promise<Result>,
): Promise<Result> {
  return inTransaction(client, async () => work(await nextChange(client, club_id)));
}

/** The number of a club's next change; from here to the end of the transaction it is alone among those of its club. */
export async function nextChange(client: ArchiveClient, club_id: string): Promise<number> {
  const { rows } = await client.query<{ change_number: number }>(
    'UPDATE archive.clubs SET change_number = change_number + 1 WHERE club_id = $1 RETURNING change_number',
    [club_id],
  );
  return rows[0].change_number;
}
