import { Type } from 'typebox';
import { CoachSettings } from '../../../shared/schemas/coach/coach-settings.ts';
import { Focus } from '../../../shared/schemas/coach/focus.ts';
import { PlanTemplate } from '../../../shared/schemas/coach/plan.ts';
import { FaultAnswer, listOf } from '../../../shared/schemas/common.ts';
import { DEFAULT_COACH_SETTINGS, readCoachSettings, writeCoachSettings } from '../../coach/coach-settings.ts';
import { FOCUSES } from '../../coach/focuses.ts';
import { PLAN_TEMPLATES } from '../../coach/plans/plan-templates.ts';
import type { ApiRoutes } from '../../http/context.ts';

const tags = ['coach'];

export const coachSettingsRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/coach/settings',
    {
      schema: {
        tags,
        response: { 200: Type.Object({ settings: CoachSettings, defaults: CoachSettings }), default: FaultAnswer },
      },
    },
    async () => ({ settings: readCoachSettings(store), defaults: DEFAULT_COACH_SETTINGS }),
  );

  app.put(
    '/coach/settings',
    { schema: { tags, body: CoachSettings, response: { 200: CoachSettings, default: FaultAnswer } } },
    async ({ body }) => writeCoachSettings(store, body),
  );

  app.get(
    '/coach/templates',
    { schema: { tags, response: { 200: listOf(PlanTemplate), default: FaultAnswer } } },
    async () => ({ items: [...PLAN_TEMPLATES] }),
  );

  app.get('/coach/focuses', { schema: { tags, response: { 200: listOf(Focus), default: FaultAnswer } } }, async () => ({
    items: [...FOCUSES],
  }));
};
