import { Type } from 'typebox';
import { CoachSettings } from '../../../shared/schemas/coach/coach-settings.ts';
import { Sourced } from '../../../shared/schemas/coach/caution.ts';
import { PlanTemplate } from '../../../shared/schemas/coach/plan.ts';
import { FaultAnswer } from '../../../shared/schemas/common.ts';
import { DEFAULT_COACH_SETTINGS, readCoachSettings, writeCoachSettings } from '../../coach/coach-settings.ts';
import { PLAN_LIMIT_SOURCES } from '../../coach/plan-limits.ts';
import { cautionsFor } from '../../coach/words/cautions.ts';
import { planTemplates } from '../../coach/plans/plan-templates.ts';
import type { ApiRoutes } from '../../http/context.ts';
import { wordsOfRequest } from '../../http/request-language.ts';

const tags = ['coach'];

export const coachSettingsRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/coach/settings',
    {
      schema: {
        tags,
        response: {
          200: Type.Object({
            settings: CoachSettings,
            defaults: CoachSettings,
            /** Where each default limit is from. */
            sources: Type.Record(Type.String(), Type.String()),
          }),
          default: FaultAnswer,
        },
      },
    },
    async () => ({ settings: readCoachSettings(store), defaults: DEFAULT_COACH_SETTINGS, sources: PLAN_LIMIT_SOURCES }),
  );

  app.put(
    '/coach/settings',
    { schema: { tags, body: CoachSettings, response: { 200: CoachSettings, default: FaultAnswer } } },
    async ({ body }) => writeCoachSettings(store, body),
  );

  app.get(
    '/coach/templates',
    {
      schema: {
        tags,
        response: {
          200: Type.Object({ items: Type.Array(PlanTemplate), cautions: Type.Array(Sourced) }),
          default: FaultAnswer,
        },
      },
    },
    async (request) => {
      const words = wordsOfRequest(request);
      return { items: planTemplates(words), cautions: cautionsFor([], words, ['ADULT_FIGURES', 'HEAT']) };
    },
  );
};
