import { join } from 'node:path';
import { ARCHIVE_DEVICE_ROLES } from '../../../shared/schemas/access.ts';
import { AccessService } from '../../access/access-service.ts';
import type { HttpsOptions } from '../../server/listen.ts';
import { type FolderServer, serveFolder } from '../../server/serve-folder.ts';
import { checkSchema } from '../upgrade-schema.ts';
import { withArchive } from '../with-archive.ts';
import { buildKeeperApp } from './keeper-app.ts';

export interface KeeperServerOptions {
  /** Address of the archive, as a keeper. */
  archive: string;
  /** Devices are kept in a folder of their own within this one, so that a club on the same machine keeps its own. */
  data_folder: string;
  host: string;
  port: number;
  https?: HttpsOptions;
  web_folder?: string;
  log?: boolean;
}

/**
 * Serves an archive's pages. The archive is asked once before: a mistyped address is told at the start and not by the first page.
 * @throws FaultError as `serveFolder`, and what reaching the archive says
 */
export async function startKeeperServer(options: KeeperServerOptions): Promise<FolderServer> {
  const { archive, data_folder, web_folder, log, ...place } = options;
  await withArchive(archive, checkSchema);
  return serveFolder({
    ...place,
    data_folder: join(data_folder, 'archive-pages'),
    access: new AccessService(ARCHIVE_DEVICE_ROLES),
    build: (parts) => buildKeeperApp({ ...parts, archive, web_folder, log }),
  });
}
