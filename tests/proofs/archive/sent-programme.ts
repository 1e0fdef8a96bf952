import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type ArchiveClient, connectArchive } from '../../../api/archive/connect.ts';
import { beginExchange } from '../../../api/archive/exchange/exchange.ts';
import { push } from '../../../api/archive/exchange/push.ts';
import { admit, type ArchiveLevel, makeArchive } from '../../../api/archive/make-archive.ts';
import { withStore } from '../../api/archive/archived-club.ts';
import { type PostgresServer, startPostgres } from '../../helpers/postgres.ts';
import { type InventedClub, inventClub } from './invented-club.ts';

/** An archive on a server of its own, connected as its owner. */
export interface SentProgramme {
  server: PostgresServer;
  owner: ArchiveClient;
  /** For more files; it goes with the server when the process ends. */
  folder: string;
}

/** Makes an archive named `programme` to which one invented club has sent everything. */
export async function sendProgramme(level: ArchiveLevel, club: InventedClub): Promise<SentProgramme> {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-programme-'));
  const server = startPostgres();
  process.once('exit', () => {
    server.stop();
    rmSync(folder, { recursive: true, force: true });
  });
  server.run('createdb', ['programme']);
  const owner = await connectArchive(server.address('programme'));
  await makeArchive(owner, { level });
  const { role_name } = await admit(owner, 'club', 'Harrow Lane');
  await inventClub(join(folder, 'club'), 1, club);
  await withStore(join(folder, 'club'), async (store) => {
    const client = await connectArchive(server.address('programme', role_name));
    await push(await beginExchange(store, client, { passphrase: null, erase: async () => {} }));
    await client.end();
  });
  return { server, owner, folder };
}
