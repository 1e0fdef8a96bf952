import type { TypeBoxTypeProvider } from '@fastify/type-provider-typebox';
import type { FastifyInstance } from 'fastify';
import { accessRoutes } from '../../routes/access.ts';
import { archiveRoutes } from './archive-routes.ts';
import { healthRoutes } from '../../routes/health.ts';
import { openApp } from '../../server/open-app.ts';
import type { AppParts } from '../../server/serve-folder.ts';
import { serveView, WEB_FOLDER } from '../../server/serve-view.ts';
import { ArchiveDesk } from './archive-desk.ts';

export interface KeeperAppOptions extends AppParts {
  /** Address of the archive, as a keeper. */
  archive: string;
  web_folder?: string;
  log?: boolean;
}

/** The server of an archive's pages. Its own database holds paired devices and what they did, and nothing of the archive. */
export async function buildKeeperApp(options: KeeperAppOptions): Promise<FastifyInstance> {
  const { store, access, error_log, host_names, archive, web_folder = WEB_FOLDER, log = false } = options;
  const app = await openApp({
    store,
    host_names,
    log,
    error_log,
    title: 'Cinderlane archive',
    description: "A programme's archive: clubs, workers and what they are given to do.",
  });
  const desk = new ArchiveDesk(archive);
  await app.register(
    async (api) => {
      const typed = api.withTypeProvider<TypeBoxTypeProvider>();
      await typed.register(healthRoutes, { store });
      await typed.register(accessRoutes, { store, access });
      await typed.register(archiveRoutes, { desk });
    },
    { prefix: '/api' },
  );
  await serveView(app, web_folder, 'archive.html');
  return app;
}
