import { type ArchiveClient, archiveFault, connectArchive } from './connect.ts';

/**
 * Works on an archive over one connection.
 * @throws FaultError what the archive's database refused or could not do, in words
 */
export async function withArchive<Result>(
  address: string,
  work: (client: ArchiveClient) => Promise<Result>,
): Promise<Result> {
  const client = await connectArchive(address);
  try {
    return await work(client);
  } catch (error) {
    throw archiveFault(error, client.host) ?? error;
  } finally {
    await client.end().catch(() => {});
  }
}
