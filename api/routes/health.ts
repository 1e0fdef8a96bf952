import { Type } from 'typebox';
import { FaultValue } from '../../shared/schemas/common.ts';
import type { ApiContext, RoutesOf } from '../http/context.ts';
import { VERSION } from '../version.ts';

const Health = Type.Object({
  ok: Type.Boolean(),
  version: Type.String(),
  instance: Type.String(),
  /** Why nothing can be changed, and what to do; null where all is well. */
  read_only: Type.Union([FaultValue, Type.Null()]),
});

export const healthRoutes: RoutesOf<Pick<ApiContext, 'store'>> = async (app, { store }) => {
  app.get('/health', { schema: { tags: ['health'], response: { 200: Health } } }, async ({ caller }) => {
    store.prepare('SELECT 1').get();
    // It names a folder of this machine, which is nobody's business who is not paired.
    const read_only = caller.role === null ? null : store.read_only;
    return { ok: true, version: VERSION, instance: store.instance, read_only };
  });
};
