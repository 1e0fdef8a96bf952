import { Type } from 'typebox';
import {
  Done,
  EffortSought,
  FaultAnswer,
  Id,
  LocalDate,
  Nullable,
  SettingsGiven,
  wordOf,
} from '../../shared/schemas/common.ts';
import {
  AnalysisAnswer,
  AnalysisList,
  NewRepetition,
  REPETITION_STATES,
  Repetition,
  RepetitionChange,
  RepetitionLine,
  RepetitionList,
  RepetitionProfile,
  SignalQuery,
} from '../../shared/schemas/repetition.ts';
import { fault, FaultError } from '../../shared/fault.ts';
import { CONTACT_FIELDS, PROFILE_QUANTITIES } from '../../shared/fields.ts';
import { encodeSignal } from '../../shared/signal-wire.ts';
import { FIGURE_FORMS, figureFile } from '../figures/figure-files.ts';
import { FIGURE_AXES, profileFigure } from '../measuring/profile-figure.ts';
import { readProfile } from '../measuring/read-profile.ts';
import { readSignal } from '../measuring/read-signal.ts';
import type { ApiRoutes } from '../http/context.ts';
import { getAnalysis, listAnalyses, listContacts } from '../store/analyses.ts';
import { listRecordings } from '../store/recordings.ts';
import {
  changeRepetition,
  createRepetition,
  getRepetitionLine,
  listRepetitions,
  markRepetitionDeleted,
} from '../store/repetitions.ts';
import type { Store } from '../store/store.ts';
import { stepsCsv } from '../measuring/steps-csv.ts';

/** Changing one of these changes what the signals mean, so the repetition is analysed again. */
const ANALYSED_FIELDS = [
  'course_distance_m',
  'course_time_s',
  'splits',
  'clock',
  'timing_method',
  'start_style',
  'belt_speed_mps',
  'wind_mps',
] as const;

const params = Type.Object({ repetition_id: Id });
const tags = ['repetitions'];

const query = Type.Object({
  session_id: Type.Optional(Id),
  athlete_id: Type.Optional(Id),
  effort_percent: Type.Optional(EffortSought),
  course_distance_m: Type.Optional(Type.Number({ minimum: 0, maximum: 100_000 })),
  from: Type.Optional(LocalDate),
  to: Type.Optional(LocalDate),
  state: Type.Optional(wordOf(REPETITION_STATES)),
  deleted: Type.Optional(Type.Boolean()),
});

export const repetitionRoutes: ApiRoutes = async (app, { store, jobs }) => {
  app.get(
    '/repetitions',
    { schema: { tags, querystring: query, response: { 200: RepetitionList, default: FaultAnswer } } },
    async (request) => ({ items: listRepetitions(store, request.query) }),
  );

  app.post(
    '/repetitions',
    { schema: { tags, body: NewRepetition, response: { 201: RepetitionLine, default: FaultAnswer } } },
    async ({ body }, reply) => reply.status(201).send(createRepetition(store, body)),
  );

  app.get(
    '/repetitions/:repetition_id',
    { schema: { tags, params, response: { 200: Repetition, default: FaultAnswer } } },
    async (request) => wholeRepetition(store, request.params.repetition_id),
  );

  app.patch(
    '/repetitions/:repetition_id',
    {
      schema: {
        tags,
        params,
        description: 'Changes a repetition. When course, times or wind change it is analysed again before the answer.',
        body: RepetitionChange,
        response: { 200: Repetition, default: FaultAnswer },
      },
    },
    async (request) => {
      const id = request.params.repetition_id;
      const { number_in_recording } = changeRepetition(store, id, request.body);
      const affected = ANALYSED_FIELDS.some((field) => request.body[field] !== undefined);
      if (affected && number_in_recording !== null) await jobs.reanalyse(id);
      return wholeRepetition(store, id);
    },
  );

  app.delete(
    '/repetitions/:repetition_id',
    { schema: { tags, params, response: { 200: Done, default: FaultAnswer } } },
    async (request) => {
      markRepetitionDeleted(store, request.params.repetition_id, true);
      return { ok: true as const };
    },
  );

  app.post(
    '/repetitions/:repetition_id/restore',
    { schema: { tags, params, response: { 200: RepetitionLine, default: FaultAnswer } } },
    async (request) => {
      markRepetitionDeleted(store, request.params.repetition_id, false);
      return getRepetitionLine(store, request.params.repetition_id);
    },
  );

  app.get(
    '/repetitions/:repetition_id/profile',
    { schema: { tags, params, response: { 200: RepetitionProfile, default: FaultAnswer } } },
    async (request) => readProfile(store, request.params.repetition_id),
  );

  app.get(
    '/repetitions/:repetition_id/figure',
    {
      schema: {
        tags,
        params,
        querystring: Type.Object({
          quantity: wordOf(PROFILE_QUANTITIES),
          by: Type.Optional(wordOf(FIGURE_AXES)),
          form: wordOf(FIGURE_FORMS),
        }),
        description:
          'The stride profile of one quantity as a picture for a paper with its caption, or the numbers behind it.',
      },
    },
    async (request, reply) => {
      const { repetition_id } = request.params;
      const { quantity, by = 'step', form } = request.query;
      const { analysis_id } = getRepetitionLine(store, repetition_id);
      const course_end_s = analysis_id === null ? null : getAnalysis(store, analysis_id).result.course_end_s;
      const figure = profileFigure(readProfile(store, repetition_id), { repetition_id, course_end_s }, quantity, by);
      if (!figure) {
        const { label } = CONTACT_FIELDS[quantity];
        throw new FaultError(fault('FIGURE_EMPTY.repetition', { quantity: label, by }, { repetition_id }));
      }
      const { type, body } = await figureFile(figure, form);
      return reply.type(type).send(body);
    },
  );

  app.get(
    '/repetitions/:repetition_id/signal',
    {
      schema: {
        tags,
        params,
        querystring: SignalQuery,
        description: "One side's signal over a window, as shared/signal-wire.ts describes.",
      },
    },
    async (request, reply) => {
      getRepetitionLine(store, request.params.repetition_id);
      const { header, columns } = readSignal(store, request.params.repetition_id, request.query);
      return reply.type('application/octet-stream').send(Buffer.from(encodeSignal(header, columns)));
    },
  );

  app.get(
    '/repetitions/:repetition_id/steps.csv',
    { schema: { tags, params, description: 'One row a contact.' } },
    async (request, reply) => {
      const { repetition_id, analysis_id } = getRepetitionLine(store, request.params.repetition_id);
      const contacts = analysis_id === null ? [] : listContacts(store, analysis_id);
      return reply
        .type('text/csv; charset=utf-8')
        .header('content-disposition', `attachment; filename="repetition-${repetition_id}-steps.csv"`)
        .send(stepsCsv(contacts));
    },
  );

  app.get(
    '/repetitions/:repetition_id/analyses',
    { schema: { tags, params, response: { 200: AnalysisList, default: FaultAnswer } } },
    async (request) => {
      getRepetitionLine(store, request.params.repetition_id);
      return { items: listAnalyses(store, request.params.repetition_id) };
    },
  );

  app.post(
    '/repetitions/:repetition_id/analyses',
    {
      schema: {
        tags,
        params,
        description: 'Analyses the stored recordings again; the earlier analysis stays beside the new one.',
        body: Nullable(Type.Object({ settings: Type.Optional(SettingsGiven) }, { additionalProperties: false })),
        response: { 201: AnalysisAnswer, default: FaultAnswer },
      },
    },
    async (request, reply) => {
      const id = await jobs.reanalyse(request.params.repetition_id, { settings: request.body?.settings });
      return reply.status(201).send(getAnalysis(store, id));
    },
  );

  app.get(
    '/analyses/:analysis_id',
    {
      schema: {
        tags,
        params: Type.Object({ analysis_id: Id }),
        response: { 200: AnalysisAnswer, default: FaultAnswer },
      },
    },
    async (request) => getAnalysis(store, request.params.analysis_id),
  );
};

function wholeRepetition(store: Store, repetitionId: number): Repetition {
  const line = getRepetitionLine(store, repetitionId);
  return {
    ...line,
    recordings: listRecordings(store, repetitionId),
    analysis: line.analysis_id === null ? null : getAnalysis(store, line.analysis_id),
  };
}
