import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import serveStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';
import { FaultError, fault } from '../../shared/fault.ts';

export const WEB_FOLDER = fileURLToPath(new URL('../../web/dist/', import.meta.url));

/**
 * The built view, where there is one. Its assets carry a hash of their content in their names and never change.
 * @param index the page at `/`: a club's, or an archive's
 */
export async function serveView(
  app: FastifyInstance,
  folder: string,
  index: 'index.html' | 'archive.html',
): Promise<void> {
  if (!existsSync(folder)) {
    app.get('/', { schema: { hide: true } }, () => {
      throw new FaultError(fault('VIEW_NOT_BUILT', {}, { path: '/' }));
    });
    return;
  }
  await app.register(serveStatic, {
    root: folder,
    // As a list: of a pressed page, one name by itself is not found.
    index: [index],
    cacheControl: false,
    preCompressed: true,
    setHeaders: (reply, path) => {
      const lasting = path.includes('/assets/');
      reply.setHeader('cache-control', lasting ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
}
