import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox';
import { Type } from 'typebox';
import { Done, FaultAnswer, Id } from '../../../shared/schemas/common.ts';

type App = Parameters<FastifyPluginAsyncTypebox>[0];

/**
 * DELETE and its undo, `POST .../restore`, of one kind of record.
 * @param path without identifier, such as `/coach/points`
 * @param id name of the identifier in the path
 * @param mark marks the record as deleted or takes the mark away
 */
export function deletable(app: App, path: string, id: string, mark: (id: number, deleted: boolean) => void): void {
  const schema = {
    tags: ['coach'],
    params: Type.Object({ [id]: Id }),
    response: { 200: Done, default: FaultAnswer },
  };
  const done = (params: unknown, deleted: boolean) => {
    mark((params as Record<string, number>)[id], deleted);
    return { ok: true as const };
  };
  app.delete(`${path}/:${id}`, { schema }, async ({ params }) => done(params, true));
  app.post(`${path}/:${id}/restore`, { schema }, async ({ params }) => done(params, false));
}
