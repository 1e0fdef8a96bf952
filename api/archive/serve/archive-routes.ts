import type { FastifyPluginAsyncTypebox } from '@fastify/type-provider-typebox';
import { Type } from 'typebox';
import {
  ArchiveOverview,
  ArchiveRunChanged,
  ArchiveRunReport,
  ArchiveWork,
  NewArchiveRun,
} from '../../../shared/schemas/archive.ts';
import { FaultAnswer, Uuid } from '../../../shared/schemas/common.ts';
import type { ArchiveClient } from '../connect.ts';
import { workersOf } from './overview.ts';
import type { ArchiveDesk } from './archive-desk.ts';
import { changesOfRun, failuresOf, findRun, listRuns, sharesOf } from '../work/run-report.ts';
import { acceptRun, retryRun } from '../work/runs.ts';
import { startRun } from '../work/start-runs.ts';

const tags = ['archive'];
const params = Type.Object({ run_id: Uuid });

/** What whoever keeps an archive sees and does: clubs, workers, runs. Registered by the server of an archive's pages alone. */
export const archiveRoutes: FastifyPluginAsyncTypebox<{ desk: ArchiveDesk }> = async (app, { desk }) => {
  app.get(
    '/archive',
    {
      schema: {
        tags,
        description: 'Clubs, when each sent and how much, at most a minute old.',
        response: { 200: ArchiveOverview, default: FaultAnswer },
      },
    },
    () => desk.overview(),
  );

  app.get('/archive/work', { schema: { tags, response: { 200: ArchiveWork, default: FaultAnswer } } }, () =>
    desk.ask(async (client) => ({ workers: await workersOf(client), runs: await listRuns(client) })),
  );

  app.post(
    '/archive/runs',
    {
      schema: {
        tags,
        description:
          'Gives workers a selection to analyse again. The new results stand beside the old ones until they are accepted.',
        body: NewArchiveRun,
        response: { 202: ArchiveRunReport, default: FaultAnswer },
      },
    },
    async ({ body: { settings, ...selection } }, reply) => {
      const report = await desk.ask(async (client) => {
        const { run_id } = await startRun(client, selection, settings);
        return reportOf(client, run_id);
      });
      return reply.status(202).send(report);
    },
  );

  app.get(
    '/archive/runs/:run_id',
    {
      schema: {
        tags,
        params,
        description: 'How far it is, what failed and why, what each worker did, and how the figures changed.',
        response: { 200: ArchiveRunReport, default: FaultAnswer },
      },
    },
    (request) => desk.ask((client) => reportOf(client, request.params.run_id)),
  );

  const changes = {
    retry: { description: 'Has what failed done again.', change: retryRun },
    accept: {
      description:
        'Shows the new results of a re-analysis from now on, in the archive and, with their next pull, in the clubs.',
      change: (client: ArchiveClient, run_id: string) => acceptRun(client, run_id, true),
    },
    revert: {
      description: 'Shows the earlier results again.',
      change: (client: ArchiveClient, run_id: string) => acceptRun(client, run_id, false),
    },
  };
  for (const [word, { description, change }] of Object.entries(changes)) {
    app.post(
      `/archive/runs/:run_id/${word}`,
      { schema: { tags, params, description, response: { 200: ArchiveRunChanged, default: FaultAnswer } } },
      (request) =>
        desk.ask(async (client) => {
          const { run_id } = await findRun(client, request.params.run_id);
          return { changed: await change(client, run_id) };
        }),
    );
  }
};

/** Results are compared once all of them are there: pages ask every few seconds until then, and a comparison reads all of a run. */
async function reportOf(client: ArchiveClient, id: string): Promise<ArchiveRunReport> {
  const run = await findRun(client, id);
  return {
    ...run,
    failures: await failuresOf(client, run.run_id),
    workers: await sharesOf(client, run.run_id),
    changes: run.kind === 'reanalysis' && run.waiting + run.working === 0 ? await changesOfRun(client, run.run_id) : [],
  };
}
