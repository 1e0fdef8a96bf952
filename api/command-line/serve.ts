import { FaultError } from '../../shared/fault.ts';
import { DEFAULT_PORT, startServer } from '../server.ts';
import type { Command } from './command.ts';
import { DATA_OPTION, dataFolder } from './data-folder.ts';
import { EXIT } from './exit-codes.ts';

export const serveCommand: Command = {
  name: 'serve',
  summary: 'The view and the API in a browser, on this machine only unless --host says otherwise.',
  options: {
    port: { value: 'NUMBER', help: `port to listen on; ${DEFAULT_PORT} without it, 0 for a free one` },
    host: { value: 'NAME', help: '127.0.0.1 without it; 0.0.0.0 opens it to the local network' },
    data: DATA_OPTION,
    demo: { help: 'loads the demo club when the database is new' },
    open: { help: 'opens the address in the browser of this machine' },
    log: { help: 'prints every request' },
  },
  details: 'There is no log-in: open it to networks you trust only. Stop it with Ctrl+C; nothing is lost.',
  run: async (options) => {
    const port = options.port === undefined ? DEFAULT_PORT : readPort(options.port as string);
    const server = await startServer({
      data_folder: dataFolder(options),
      host: (options.host as string | undefined) ?? '127.0.0.1',
      port,
      log: options.log === true,
    });
    process.stdout.write(`Cinderlane is at ${server.address}\n`);
    await new Promise<void>((resolve) => {
      for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
    });
    await server.close();
    return EXIT.done;
  },
};

function readPort(text: string): number {
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65535) return port;
  throw new FaultError({
    code: 'OPTION_UNREADABLE',
    message: `--port is "${text}"; it must be a whole number from 0 to 65535. Nothing was done.`,
    where: { option: '--port', value: text },
    hint: `Leave it out for ${DEFAULT_PORT}.`,
  });
}
