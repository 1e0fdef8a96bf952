/** A PostgreSQL server of one's own in a passing folder, reached by a socket file alone. Needs Debian's package `postgresql`. */
import { spawnSync } from 'node:child_process';
import { chmodSync, chownSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir, userInfo } from 'node:os';
import { join } from 'node:path';

const HOME = '/usr/lib/postgresql';

/** Folder of the newest server's programs; null where there is none. */
export function postgresPrograms(): string | null {
  if (!existsSync(HOME)) return null;
  const versions = readdirSync(HOME).sort((a, b) => Number(b) - Number(a));
  const found = versions.map((version) => join(HOME, version, 'bin')).find((bin) => existsSync(join(bin, 'initdb')));
  return found ?? null;
}

export interface PostgresServer {
  /** Without a user that of the owner, who may do everything. */
  address(database: string, user?: string, password?: string): string;
  /** Runs a program of the server, such as pg_dump, as the owner. @returns its output */
  run(program: string, words: string[], input?: string | Buffer): Buffer;
  socket: string;
  /** Starts it again after `run('pg_ctl', ['stop'])`, with the same settings. */
  start(): void;
  /** Processor time of the server until now, s: of its first process, its children that ended, and those that live. Linux. */
  processorSeconds(): number;
  stop(): void;
}

/**
 * @param settings lines of postgresql.conf beside those that make it small and quiet
 * @param prepare called with the user that the server runs as, where that is another one
 */
export function startPostgres(
  settings: Record<string, string> = {},
  prepare: (uid: number, gid: number) => void = () => {},
): PostgresServer {
  const bin = postgresPrograms()!;
  const root = userInfo().uid === 0;
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-pg-'));
  const as = (program: string, words: string[], input?: string | Buffer) => {
    const command = [join(bin, program), ...words];
    // initdb and postgres refuse root.
    const [first, ...rest] = root ? ['runuser', '-u', 'postgres', '--', ...command] : command;
    const { status, stdout, stderr, error } = spawnSync(first, rest, { input, cwd: folder, maxBuffer: 1 << 30 });
    if (error || status !== 0) throw new Error(`${program}: ${error ?? stderr.toString()}`);
    return stdout;
  };
  if (root) {
    const [uid, gid] = ['-u', '-g'].map((option) => Number(spawnSync('id', [option, 'postgres']).stdout.toString()));
    chownSync(folder, uid, gid);
    prepare(uid, gid);
    // Whoever tests must reach the socket.
    chmodSync(folder, 0o755);
  }
  const data = join(folder, 'data');
  as('initdb', [
    '-D',
    data,
    '-U',
    'owner',
    '--auth-local=trust',
    '--auth-host=scram-sha-256',
    '--encoding=UTF8',
    '--no-locale',
    '--no-sync',
  ]);
  const lines = {
    listen_addresses: "''",
    unix_socket_directories: `'${folder}'`,
    shared_buffers: "'64MB'",
    ...settings,
  };
  const options = Object.entries(lines).map(([name, value]) => `-c ${name}=${value}`);
  const start = () =>
    void as('pg_ctl', ['-D', data, '-w', '-t', '120', '-l', join(folder, 'log'), '-o', options.join(' '), 'start']);
  start();
  return {
    start,
    socket: folder,
    processorSeconds: () => processorSeconds(Number(readFileSync(join(data, 'postmaster.pid'), 'utf8').split('\n')[0])),
    run: (program, words, input) =>
      as(program, program === 'pg_ctl' ? ['-D', data, ...words] : ['-h', folder, '-U', 'owner', ...words], input),
    address: (database, user = 'owner', password = '') =>
      `postgres:///${database}?host=${encodeURIComponent(folder)}&user=${user}${password && `&password=${password}`}`,
    stop() {
      try {
        as('pg_ctl', ['-D', data, '-m', 'immediate', 'stop']);
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    },
  };
}

/** Hundredths of a second, as Linux counts (proc(5): fields 14 to 17 of stat, of which the name may hold blanks). */
const TICKS = 100;

function processorSeconds(first: number): number {
  const ticks = (pid: number): number[] => {
    try {
      const behind = readFileSync(`/proc/${pid}/stat`, 'utf8')
        .replace(/^.*\) /s, '')
        .split(' ');
      return behind.slice(11, 15).map(Number);
    } catch {
      return [0, 0, 0, 0];
    }
  };
  const children = readFileSync(`/proc/${first}/task/${first}/children`, 'utf8').trim().split(' ').filter(Boolean);
  const living = children.flatMap((pid) => ticks(Number(pid)).slice(0, 2));
  return [...ticks(first), ...living].reduce((sum, one) => sum + one, 0) / TICKS;
}
