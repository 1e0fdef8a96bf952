import { randomBytes } from 'node:crypto';
import { hostname } from 'node:os';
import { FaultError, fault } from '../../shared/fault.ts';
import { uuid7 } from '../store/uuid.ts';
import { type ArchiveClient, inTransaction } from './connect.ts';
import { upgradeSchema } from './upgrade-schema.ts';
import { makeQueue } from './queue.ts';

/** named: names and free text as they are; pseudonyms: these sealed by each club, where they leave it at all. */
export const ARCHIVE_LEVELS = ['named', 'pseudonyms'] as const;
export type ArchiveLevel = (typeof ARCHIVE_LEVELS)[number];

/** What somebody may do in a programme. */
export const ARCHIVE_ROLES = ['club', 'scientist', 'keeper'] as const;
export type ArchiveRole = (typeof ARCHIVE_ROLES)[number];

/** More changes than any club makes between two backups. */
const BEYOND = 1_000_000_000;

const DUPLICATE_ROLE = '42710';

/**
 * Makes an archive in a database, or brings it to the newest shape. The level is set once: what has left a club cannot be taken back
 * by a setting.
 * @param restored after a restore from an older backup: machines know later changes than the archive, whose counts must not come again
 * @returns the files of the schema that were run, and the level
 */
export async function makeArchive(
  client: ArchiveClient,
  {
    name = hostname(),
    level = 'pseudonyms',
    restored = false,
  }: { name?: string; level?: ArchiveLevel; restored?: boolean },
): Promise<{ applied: string[]; level: ArchiveLevel }> {
  for (const role of ARCHIVE_ROLES) await makeRole(client, `CREATE ROLE cinderlane_${role} NOLOGIN`);
  const applied = await upgradeSchema(client);
  await makeQueue(client);
  // Of this year and the next, before anybody needs it; other years are made when their first contact comes.
  const year = new Date().getUTCFullYear();
  for (const of_year of [year, year + 1]) await client.query('SELECT archive.make_partition($1)', [of_year]);
  await client.query(
    'INSERT INTO archive.programme (archive_uuid, name, level) VALUES ($1, $2, $3) ON CONFLICT (only_one) DO NOTHING',
    [uuid7(), name, level],
  );
  if (restored) await client.query('UPDATE archive.clubs SET change_number = change_number + $1', [BEYOND]);
  const { rows } = await client.query<{ level: ArchiveLevel }>('SELECT level FROM archive.programme');
  return { applied, level: rows[0].level };
}

export interface Admitted {
  role_name: string;
  password: string;
  club_id: string | null;
}

/**
 * Lets a club, a scientist or a keeper in: a database role of its own with a password that is shown once.
 * @param name of the club or the person, unique among them
 * @throws FaultError ARCHIVE_NAME_TAKEN
 */
export async function admit(client: ArchiveClient, as: ArchiveRole, name: string): Promise<Admitted> {
  const words = name
    .toLowerCase()
    .normalize('NFKD')
    .split(/[^a-z0-9]+/);
  const short = words.filter(Boolean).join('_').slice(0, 40);
  const role_name = `${as}_${short || 'nameless'}`;
  const password = randomBytes(24).toString('base64url');
  const club_id = as === 'club' ? uuid7() : null;
  try {
    await inTransaction(client, async () => {
      await client.query(`CREATE ROLE ${client.escapeIdentifier(role_name)} LOGIN PASSWORD ${client.escapeLiteral(password)}
        IN ROLE cinderlane_${as}`);
      if (club_id === null) return;
      await client.query('INSERT INTO archive.clubs (club_id, name, role_name, salt) VALUES ($1, $2, $3, $4)', [
        club_id,
        name,
        role_name,
        randomBytes(16),
      ]);
    });
    return { role_name, password, club_id };
  } catch (error) {
    const { code } = error as { code?: string };
    if (code === DUPLICATE_ROLE || code === '23505')
      throw new FaultError(fault('ARCHIVE_NAME_TAKEN', { name, role_name }, { name }));
    throw error;
  }
}

async function makeRole(client: ArchiveClient, sql: string): Promise<void> {
  try {
    await client.query(sql);
  } catch (error) {
    // Roles are the whole server's: another archive there has made them. 23505: at this very moment.
    if (![DUPLICATE_ROLE, '23505'].includes((error as { code?: string }).code ?? '')) throw error;
  }
}
