import { resolve } from 'node:path';
import { FaultError, fault } from '../../shared/fault.ts';
import type { ArchiveClient } from '../archive/connect.ts';
import {
  admit,
  ARCHIVE_LEVELS,
  ARCHIVE_ROLES,
  type ArchiveLevel,
  type ArchiveRole,
  makeArchive,
} from '../archive/make-archive.ts';
import { writeArchiveParquet } from '../archive/research/write-parquet.ts';
import { ARCHIVE_OPTION, archiveAddress } from './archive-address.ts';
import type * as ArchiveServe from './archive-serve.ts';
import { type Command, neededOption, type OptionDefinition, type OptionValues } from './command.ts';
import { DATA_OPTION } from './data-folder.ts';
import { LISTEN_OPTIONS } from './listen-options.ts';
import { ARCHIVE_PORT } from '../server/ports.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import { isClub, runPull, runPush, runStatus, withExchange, withStore } from './archive-exchange.ts';
import { runBeside, runFetchNorms, runPublish } from './archive-norms.ts';
import { runOverview } from './archive-overview.ts';
import { runQuery } from './archive-query.ts';
import { PASSPHRASE_OPTION } from './passphrase.ts';
import { withArchive } from '../archive/with-archive.ts';

type Action = (client: ArchiveClient, options: OptionValues, address: string) => Promise<ExitCode>;

const ACTIONS: Record<string, Action> = {
  init: runInit,
  admit: runAdmit,
  push: (client, options) => withExchange(client, options, runPush),
  pull: (client, options) => withExchange(client, options, runPull),
  parquet: runParquet,
  publish: runPublish,
  norms: (client, options) => withStore(options, (store) => runFetchNorms(client, store)),
  status: async (client, options) =>
    (await isClub(client))
      ? withExchange(client, options, (x) => runStatus(x, options.check === true))
      : runOverview(client),
};

export const archiveCommand: Command = {
  name: 'archive',
  summary: "A programme's archive on PostgreSQL: what was measured in many clubs.",
  operands: 'init|admit|push|pull|status|serve|parquet|query|publish|norms',
  options: {
    archive: ARCHIVE_OPTION,
    name: { value: 'NAME', help: 'init: of the programme; admit: of the club or the person' },
    level: {
      value: 'LEVEL',
      words: ARCHIVE_LEVELS,
      help: 'init: pseudonyms (without it), or named: names leave the clubs',
    },
    as: { value: 'ROLE', words: ARCHIVE_ROLES, help: 'admit: club, scientist or keeper' },
    restored: { help: 'init: after a restore from a backup: counts on where no machine has been' },
    check: { help: 'status: compares everything with the archive by checksums' },
    files: { value: 'DIR', help: 'parquet, query: folder of the Parquet files' },
    quantity: { value: 'FIELD', help: 'query norms: of which quantity; contact_time_ms without it' },
    key: { value: 'FILE', help: 'publish: the key that signs norms; made where there is none' },
    athlete: { value: 'NAME', help: 'norms: this athlete beside others alike' },
    sql: { value: 'FILE', help: 'query sql: a query over the views repetitions and contacts' },
    'passphrase-file': {
      ...PASSPHRASE_OPTION,
      help: "file whose first line seals this club's names in a programme of pseudonyms; $CINDERLANE_PASSPHRASE without it",
    },
    port: { value: 'NUMBER', help: `serve: port to listen on; ${ARCHIVE_PORT} without it, 0 for a free one` },
    ...servingOptions(),
    log: { help: 'serve: prints every request' },
    data: DATA_OPTION,
  },
  details:
    'init    makes the archive in a database, or brings it to the newest shape\n' +
    'admit   lets a club, a scientist or a keeper in: prints the user and a password, once\n' +
    'push    sends what the archive lacks, of athletes who agreed to research; goes on where a broken one was\n' +
    'pull    brings everything of the club to this machine: a lost laptop, or a second one\n' +
    'status  who exchanged when, what waits to be sent, fields that two machines changed, and with --check whether all is equal; as a keeper every club,\n' +
    '        sizes, workers, re-analyses\n' +
    'serve   pages for whoever keeps the archive: clubs, workers, jobs, failures; on this machine without log-in, else for paired devices\n' +
    'parquet writes what was measured as Parquet, a file a club and year, only what changed since\n' +
    'query   norms|counts|sql: asks these files with DuckDB; norms tell nothing of fewer than ten people\n' +
    'publish works out norms of these files, signs them and gives them to the clubs\n' +
    'norms   fetches them to this club; with --athlete and no network, one athlete beside others of the same sex, age, speed and effort\n' +
    'Beyond this machine the connection is encrypted and the certificate checked. Not in the archive: paired devices, who did what, and the\n' +
    'packet logs of live captures; and everything of athletes who did not agree, which `cinderlane backup` keeps.',
  run: async (options, [action, ...others], load) => {
    if (action === 'query') return runQuery(options, others[0]);
    if (action === 'serve' && others.length === 0) {
      // The server and its routes, which no other action needs.
      const { runArchiveServe } = (await load('./archive-serve.ts')) as typeof ArchiveServe;
      return runArchiveServe(options, archiveAddress(options, 'archive serve'));
    }
    if (action === 'norms' && options.athlete !== undefined) {
      // From what was fetched: on the track there is no network.
      return withStore(options, async (store) => runBeside(store, options.athlete as string));
    }
    const run = others.length === 0 && action !== undefined && Object.hasOwn(ACTIONS, action) ? ACTIONS[action] : null;
    if (run === null)
      throw new FaultError(
        fault('OPTION_UNREADABLE.action', { found: action ?? '', words: [...Object.keys(ACTIONS), 'query', 'serve'] }),
      );
    const address = archiveAddress(options, 'archive');
    return withArchive(address, (client) => run(client, options, address));
  },
};

async function runInit(client: ArchiveClient, options: OptionValues): Promise<ExitCode> {
  const { applied, level } = await makeArchive(client, {
    name: options.name as string | undefined,
    level: options.level as ArchiveLevel | undefined,
    restored: options.restored === true,
  });
  const what = applied.length > 0 ? `brought to the newest shape (${applied.length} steps)` : 'of the newest shape';
  process.stdout.write(`the archive is ${what}; level: ${level}\n`);
  if (options.level !== undefined && options.level !== level)
    process.stderr.write(`the level was set when the archive was made and stays ${level}\n`);
  return EXIT.done;
}

async function runAdmit(client: ArchiveClient, options: OptionValues, address: string): Promise<ExitCode> {
  const as = neededOption(options, 'archive admit', 'as', 'ROLE') as ArchiveRole;
  const name = neededOption(options, 'archive admit', 'name', 'NAME');
  const { role_name, password } = await admit(client, as, name);
  const url = new URL(address);
  url.password = '';
  if (url.hostname === '') url.searchParams.set('user', role_name);
  else url.username = role_name;
  url.searchParams.delete('password');
  process.stdout.write(`address   ${url.href}\npassword  ${password}\nIt is shown this once.\n`);
  return EXIT.done;
}

async function runParquet(client: ArchiveClient, options: OptionValues): Promise<ExitCode> {
  const files = neededOption(options, 'archive parquet', 'files', 'DIR');
  const { written, unchanged, removed, contacts } = await writeArchiveParquet(client, resolve(files));
  process.stdout.write(
    `${written} parts written with ${contacts} contacts, ${unchanged} as they were, ${removed} taken away\n`,
  );
  return EXIT.done;
}

/** As of the club's own server, each said to be of this action. */
function servingOptions(): Record<string, OptionDefinition> {
  return Object.fromEntries(
    Object.entries(LISTEN_OPTIONS).map(([name, option]) => [name, { ...option, help: `serve: ${option.help}` }]),
  );
}
