import { DEMO_NOTES } from '../../shared/demo.ts';
import { FaultAnswer } from '../../shared/schemas/common.ts';
import { DemoState } from '../../shared/schemas/demo.ts';
import type { ApiRoutes } from '../http/context.ts';

export const demoRoutes: ApiRoutes = async (app, { store, demo }) => {
  app.get(
    '/demo',
    {
      schema: {
        tags: ['health'],
        description: 'Whether an invented club is among the groups, and how far it is loaded.',
        response: { 200: DemoState, default: FaultAnswer },
      },
    },
    async () => {
      const group = store
        .prepare('SELECT 1 FROM groups WHERE notes = ? AND deleted_utc IS NULL LIMIT 1')
        .get(DEMO_NOTES);
      return { invented: group !== undefined, loading: demo.now() };
    },
  );
};
