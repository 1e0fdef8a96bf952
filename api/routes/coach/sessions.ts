import { Type } from 'typebox';
import { FIELD_BEAT_MS } from '../../../shared/field-events.ts';
import { FatigueView } from '../../../shared/schemas/coach/course-view.ts';
import { FieldView } from '../../../shared/schemas/coach/field-view.ts';
import { PlanCheck, PlanQuestion, SessionPlan, SessionPlanBody } from '../../../shared/schemas/coach/plan.ts';
import { RepetitionJudgements } from '../../../shared/schemas/coach/repetition-judgements.ts';
import { FaultAnswer, Id, wordOf } from '../../../shared/schemas/common.ts';
import { fatigueView } from '../../coach/judgement/fatigue-view.ts';
import { fieldView } from '../../coach/judgement/field-view.ts';
import { retellField } from '../../coach/judgement/retell.ts';
import { repetitionJudgements } from '../../coach/judgement/repetition-judgements.ts';
import { watchField } from '../../coach/judgement/watch-field.ts';
import { checkQuestion, getSessionPlan, setSessionPlan } from '../../coach/plans/session-plans.ts';
import type { ApiRoutes } from '../../http/context.ts';
import { wordsOfRequest } from '../../http/request-language.ts';
import { sendEvents } from '../../http/send-events.ts';

const tags = ['coach'];
/** Unit of lengths in the sentences. */
const inUnit = Type.Object({ length: Type.Optional(wordOf(['m', 'yd', 'ft'] as const)) });
const ofSession = Type.Object({ session_id: Id });
/** Repetitions that count as run, as `12,14`; without it all. */
const onlyThese = Type.Object({ only: Type.Optional(Type.String({ pattern: '^[0-9]{0,9}(,[0-9]{1,9}){0,999}$' })) });

export const coachSessionRoutes: ApiRoutes = async (app, { store }) => {
  app.post(
    '/coach/plan-check',
    { schema: { tags, body: PlanQuestion, response: { 200: PlanCheck, default: FaultAnswer } } },
    async (request) => checkQuestion(store, request.body, null, wordsOfRequest(request)),
  );

  app.get(
    '/coach/sessions/:session_id/plan',
    { schema: { tags, params: ofSession, response: { 200: SessionPlan, default: FaultAnswer } } },
    async (request) => getSessionPlan(store, request.params.session_id, wordsOfRequest(request)),
  );

  app.put(
    '/coach/sessions/:session_id/plan',
    {
      schema: { tags, params: ofSession, body: SessionPlanBody, response: { 200: SessionPlan, default: FaultAnswer } },
    },
    async (request) => setSessionPlan(store, request.params.session_id, request.body, wordsOfRequest(request)),
  );

  app.get(
    '/coach/sessions/:session_id/field',
    {
      schema: {
        tags,
        params: ofSession,
        querystring: Type.Object({ ...inUnit.properties, ...onlyThese.properties }),
        response: { 200: FieldView, default: FaultAnswer },
      },
    },
    async (request) => {
      const { params, query } = request;
      const only = query.only === undefined ? undefined : new Set(query.only.split(',').map(Number));
      const view = fieldView(store, params.session_id, query.length, only);
      const words = wordsOfRequest(request);
      return words.language === 'en' ? view : retellField(view, words, query.length);
    },
  );

  app.get(
    '/coach/sessions/:session_id/field/events',
    {
      schema: {
        tags,
        params: ofSession,
        description:
          `Server-sent events: \`changed\` when the field view is to be asked for again, at first and after every change; ` +
          `\`beat\` every ${FIELD_BEAT_MS / 1000} s in between.`,
      },
    },
    async (request, reply) => {
      const { session_id } = request.params;
      fieldView(store, session_id);
      sendEvents(request, reply, (send) => {
        send('changed', {});
        const beat = setInterval(() => send('beat', {}), FIELD_BEAT_MS);
        const stop = watchField(
          store,
          session_id,
          () => send('changed', {}),
          () => send('changed', {}, true),
        );
        return () => {
          clearInterval(beat);
          stop();
        };
      });
    },
  );

  app.get(
    '/coach/sessions/:session_id/fatigue',
    { schema: { tags, params: ofSession, response: { 200: FatigueView, default: FaultAnswer } } },
    async (request) => fatigueView(store, request.params.session_id, wordsOfRequest(request)),
  );

  const ofRepetition = Type.Object({ repetition_id: Id });
  app.get(
    '/coach/repetitions/:repetition_id/judgements',
    {
      schema: {
        tags,
        params: ofRepetition,
        querystring: inUnit,
        response: { 200: RepetitionJudgements, default: FaultAnswer },
      },
    },
    async (request) => {
      const { params, query } = request;
      return repetitionJudgements(store, params.repetition_id, query.length, wordsOfRequest(request));
    },
  );
};
