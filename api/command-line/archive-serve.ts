import { startKeeperServer } from '../archive/serve/keeper-server.ts';
import { ARCHIVE_PORT } from '../server/ports.ts';
import type { OptionValues } from './command.ts';
import { dataFolder } from './data-folder.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import { listenOptions, tellNetwork, untilStopped } from './listen-options.ts';
import { printFault } from './print-fault.ts';

/** Serves an archive's pages until it is stopped. */
export async function runArchiveServe(options: OptionValues, archive: string): Promise<ExitCode> {
  process.umask(0o077);
  const server = await startKeeperServer({
    archive,
    data_folder: dataFolder(options),
    ...listenOptions(options, ARCHIVE_PORT),
    log: options.log === true,
  });
  const stopped = untilStopped();
  process.stdout.write(`the archive's pages are at ${server.address}\n`);
  if (server.store.read_only !== null) printFault(server.store.read_only);
  await tellNetwork(server.access);
  await stopped;
  await server.close();
  return EXIT.done;
}
