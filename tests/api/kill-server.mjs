// A server process of its own, to be killed by tests/api/kill.test.ts. Prints its address once it listens.
import { register } from 'tsx/esm/api';

register();
const { startServer } = await import('../../api/server/server.ts');
const server = await startServer({ data_folder: process.argv[2], port: 0 });
process.stdout.write(`${server.address}\n`);
