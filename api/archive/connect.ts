import { readFileSync } from 'node:fs';
import { isIP } from 'node:net';
import pg from 'pg';
import { FaultError, fault } from '../../shared/fault.ts';

export type ArchiveClient = pg.Client;

const CONNECT_MS = 15_000;

/** Types as the store has them: whole numbers as numbers, instants and days as text. */
const PARSERS: Record<number, (text: string) => unknown> = {
  [pg.types.builtins.INT8]: Number,
  [pg.types.builtins.DATE]: (text) => text,
  [pg.types.builtins.TIMESTAMPTZ]: (text) => new Date(text).toISOString(),
};

/**
 * How to reach an archive, from its address (`postgres://user@host:port/database?sslmode=verify-full&sslrootcert=FILE`). Beyond this
 * machine only with TLS, the server's certificate checked. A password may stand in it, in PGPASSWORD or in the file PGPASSFILE names.
 * @throws FaultError OPTION_UNREADABLE, ARCHIVE_NOT_ENCRYPTED, FILE_NOT_FOUND
 */
export function archiveConnection(address: string): pg.ClientConfig {
  const { host, place, mode, ca } = readAddress(address);
  const own = isThisMachine(host);
  if (!own && (mode === 'disable' || mode === 'no-verify' || mode === 'allow' || mode === 'prefer'))
    throw new FaultError(fault('ARCHIVE_NOT_ENCRYPTED', { host, mode }, { host }));
  return {
    ...place,
    ssl:
      own && (mode === '' || mode === 'disable')
        ? false
        : { rejectUnauthorized: true, ...ca, servername: serverName(host) },
    application_name: 'cinderlane',
    connectionTimeoutMillis: CONNECT_MS,
    keepAlive: true,
    types: {
      getTypeParser: ((oid: number, form?: string) =>
        PARSERS[oid] ?? pg.types.getTypeParser(oid, form as 'text')) as never,
    },
  };
}

/**
 * Opens one connection.
 * @throws FaultError ARCHIVE_UNREACHABLE, ARCHIVE_REFUSED and those of `archiveConnection`
 */
export async function connectArchive(address: string): Promise<ArchiveClient> {
  const client = new pg.Client(archiveConnection(address));
  // Told where a query fails next; without a listener it would end the program.
  client.on('error', () => {});
  try {
    await client.connect();
    return client;
  } catch (error) {
    throw archiveFault(error, client.host) ?? error;
  }
}

/**
 * Runs one transaction: all of it or, when it throws, nothing.
 * @param mode as behind BEGIN, such as an isolation level
 */
export async function inTransaction<Result>(
  client: ArchiveClient,
  work: () => Promise<Result>,
  mode = '',
): Promise<Result> {
  await client.query(`BEGIN ${mode}`);
  try {
    const result = await work();
    await client.query('COMMIT');
    return result;
  } catch (error) {
    // Where the connection is what failed, the archive has rolled back by itself.
    await client.query('ROLLBACK').catch(() => {});
    throw error;
  }
}

/** What a failure of the database means to whoever asked; null where it is none that is known. */
export function archiveFault(error: unknown, host: string): FaultError | null {
  if (error instanceof FaultError) return error;
  const { code = '', message = String(error) } = error as { code?: string; message?: string };
  if (code.startsWith('28')) return new FaultError(fault('ARCHIVE_REFUSED', { host, why: message }, { host }));
  if (code === '3F000' || code === '42P01' || code === '42883')
    return new FaultError(fault('ARCHIVE_NOT_MADE', { host, why: message }, { host }));
  if (code === '42501') return new FaultError(fault('ARCHIVE_REFUSED.rights', { host, why: message }, { host }));
  const lost = /^(?:08|57P|53)/.test(code) || /^(?:E[A-Z]+|CERT_|DEPTH_|SELF_|UNABLE_|ERR_TLS)/.test(code);
  if (lost || /connection|timeout|SSL|certificate/i.test(message) || code === '3D000')
    return new FaultError(fault('ARCHIVE_UNREACHABLE', { host, why: message }, { host }));
  return null;
}

/** Read here, so that what concerns TLS is decided in one place and no setting of a library can weaken it. */
function readAddress(address: string) {
  const url = URL.canParse(address) ? new URL(address) : null;
  if (url === null || !/^postgres(?:ql)?:$/.test(url.protocol))
    throw new FaultError(fault('OPTION_UNREADABLE.archive', { option: '--archive' }, { option: '--archive' }));
  const given = (name: string, part: string) => url.searchParams.get(name) ?? (decodeURIComponent(part) || undefined);
  const host = given('host', url.hostname.replace(/^\[(.*)\]$/, '$1')) ?? process.env.PGHOST ?? 'localhost';
  const port = given('port', url.port);
  const file = url.searchParams.get('sslrootcert');
  return {
    host,
    mode: url.searchParams.get('sslmode') ?? '',
    ca: file === null ? {} : { ca: readCertificate(file) },
    place: {
      host,
      port: port === undefined ? undefined : Number(port),
      user: given('user', url.username),
      password: given('password', url.password),
      database: given('dbname', url.pathname.slice(1)),
    } satisfies pg.ClientConfig,
  };
}

function readCertificate(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    throw new FaultError(fault('FILE_NOT_FOUND.certificate', { file }, { file }));
  }
}

/** A socket file, or an address that no network carries. */
function isThisMachine(host: string): boolean {
  return host.startsWith('/') || host === 'localhost' || host === '::1' || /^127\./.test(host);
}

/** TLS names hosts, never addresses. */
function serverName(host: string): string | undefined {
  return isIP(host) === 0 && !host.startsWith('/') ? host : undefined;
}
