import { Type } from 'typebox';
import type { ApiRoutes } from '../http/context.ts';
import { VERSION } from '../version.ts';

const Health = Type.Object({ ok: Type.Boolean(), version: Type.String(), instance: Type.String() });

export const healthRoutes: ApiRoutes = async (app, { store }) => {
  app.get('/health', { schema: { tags: ['health'], response: { 200: Health } } }, async () => {
    store.prepare('SELECT 1').get();
    return { ok: true, version: VERSION, instance: store.instance };
  });
};
