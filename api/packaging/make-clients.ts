/** Writes clients of the API for Python and R, made from its description: `npm run clients -- --out DIR`. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { FastifyInstance } from 'fastify';
import { buildApp } from '../server/app.ts';
import { Store } from '../store/store.ts';
import { VERSION } from '../version.ts';
import { pythonClient } from './clients/python-client.ts';
import { rClient } from './clients/r-client.ts';
import { readOperations } from './clients/read-operations.ts';

const { values } = parseArgs({ options: { out: { type: 'string', default: 'clients' } } });
const store = Store.open(':memory:');
const app: FastifyInstance = await buildApp({ store });
await app.ready();
const operations = readOperations(app.swagger());
mkdirSync(values.out, { recursive: true });
writeFileSync(join(values.out, 'cinderlane.py'), pythonClient(operations, VERSION));
writeFileSync(join(values.out, 'cinderlane.R'), rClient(operations, VERSION));
console.log(
  `${operations.length} operations: ${join(values.out, 'cinderlane.py')}, ${join(values.out, 'cinderlane.R')}`,
);
await app.close();
store.close();
