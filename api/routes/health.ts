import { Type } from 'typebox';
import type { ApiRoutes } from '../context.ts';
import { VERSION } from '../version.ts';

export const healthRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/health',
    { schema: { tags: ['health'], response: { 200: Type.Object({ ok: Type.Boolean(), version: Type.String() }) } } },
    async () => {
      store.prepare('SELECT 1').get();
      return { ok: true, version: VERSION };
    },
  );
};
