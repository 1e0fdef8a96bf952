import { connectArchive, type ArchiveClient } from '../../../api/archive/connect.ts';
import { beginExchange, type Exchange } from '../../../api/archive/exchange/exchange.ts';
import { push } from '../../../api/archive/exchange/push.ts';
import { admit, type ArchiveLevel, makeArchive } from '../../../api/archive/make-archive.ts';
import { type PostgresServer, startPostgres } from '../../helpers/postgres.ts';
import { withStore } from './archived-club.ts';

/** An archive on a server of its own, with one club and a keeper let in. */
export interface KeptArchive {
  server: PostgresServer;
  owner: ArchiveClient;
  keeper: ArchiveClient;
  clubAddress: string;
  keeperAddress: string;
  /** Runs an exchange of the club from a folder. */
  exchange<Result>(folder: string, what: (x: Exchange) => Promise<Result>): Promise<Result>;
  close(): Promise<void>;
}

/** @param folder of the club; what is in it is sent */
export async function keepArchive(folder: string, level: ArchiveLevel = 'named'): Promise<KeptArchive> {
  const server = startPostgres();
  server.run('createdb', ['programme']);
  const owner = await connectArchive(server.address('programme'));
  await makeArchive(owner, { level, name: 'Northern programme' });
  const addressOf = async (as: 'club' | 'keeper', name: string) =>
    server.address('programme', (await admit(owner, as, name)).role_name);
  const clubAddress = await addressOf('club', 'Harrow Lane');
  const keeperAddress = await addressOf('keeper', 'Ada Finch');
  const keeper = await connectArchive(keeperAddress);
  const exchange: KeptArchive['exchange'] = (from, what) =>
    withStore(from, async (store) => {
      const client = await connectArchive(clubAddress);
      try {
        return await what(await beginExchange(store, client, { passphrase: null, erase: async () => {} }));
      } finally {
        await client.end();
      }
    });
  await exchange(folder, push);
  const close = async () => {
    await Promise.all([owner, keeper].map((client) => client.end()));
    server.stop();
  };
  return { server, owner, keeper, clubAddress, keeperAddress, exchange, close };
}
