import { Type } from 'typebox';
import { FaultAnswer, Id } from '../../shared/schemas/common.ts';
import { NewReanalysis, Reanalysis, ReanalysisList, ReanalysisReport } from '../../shared/schemas/reanalysis.ts';
import { mergeSettings } from '../measuring/read-settings.ts';
import type { ApiRoutes } from '../http/context.ts';
import { getReanalysis, getReanalysisReport, listReanalyses, switchAnalyses } from '../store/reanalyses.ts';
import { listRepetitions } from '../store/repetitions.ts';

const params = Type.Object({ reanalysis_id: Id });
const tags = ['re-analyses'];

export const reanalysisRoutes: ApiRoutes = async (app, { store, jobs }) => {
  app.get('/reanalyses', { schema: { tags, response: { 200: ReanalysisList, default: FaultAnswer } } }, async () => ({
    items: listReanalyses(store),
  }));

  app.post(
    '/reanalyses',
    {
      schema: {
        tags,
        description:
          'Analyses a selection again in the background. The new analyses stand beside the old ones until they are accepted.',
        body: NewReanalysis,
        response: { 202: Reanalysis, default: FaultAnswer },
      },
    },
    async ({ body: { settings, ...selection } }, reply) => {
      if (settings !== undefined) mergeSettings(settings, 'settings');
      const recorded = listRepetitions(store, selection).filter((line) => line.state !== 'planned');
      const id = jobs.reanalyses.start(
        recorded.map((line) => line.repetition_id),
        settings,
      );
      return reply.status(202).send(getReanalysis(store, id));
    },
  );

  app.get(
    '/reanalyses/:reanalysis_id',
    {
      schema: {
        tags,
        params,
        description: 'How far it is, what failed and why, and how the figures changed.',
        response: { 200: ReanalysisReport, default: FaultAnswer },
      },
    },
    async (request) => getReanalysisReport(store, request.params.reanalysis_id),
  );

  app.post(
    '/reanalyses/:reanalysis_id/cancel',
    { schema: { tags, params, response: { 200: Reanalysis, default: FaultAnswer } } },
    async (request) => {
      await jobs.reanalyses.cancel(request.params.reanalysis_id);
      return getReanalysis(store, request.params.reanalysis_id);
    },
  );

  for (const [word, accept] of [
    ['accept', true],
    ['revert', false],
  ] as const) {
    app.post(
      `/reanalyses/:reanalysis_id/${word}`,
      {
        schema: {
          tags,
          params,
          description: accept ? 'Shows the new analyses from now on.' : 'Shows the old analyses again.',
          response: { 200: Reanalysis, default: FaultAnswer },
        },
      },
      async (request) => {
        switchAnalyses(store, request.params.reanalysis_id, accept);
        return getReanalysis(store, request.params.reanalysis_id);
      },
    );
  }
};
