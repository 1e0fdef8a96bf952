import { Type } from 'typebox';
import {
  AthleteFocus,
  AthleteFocusChange,
  AthleteLine,
  AthleteMeasure,
  AthleteRecord,
  AthleteSensor,
  AthleteSensors,
  NewAthleteFocus,
  NewAthleteMeasure,
  Returning,
} from '../../../shared/schemas/coach/athlete-record.ts';
import { CourseView, FocusView } from '../../../shared/schemas/coach/course-view.ts';
import { FaultAnswer, Id, LocalDate, listOf, Nullable, wordOf } from '../../../shared/schemas/common.ts';
import { courseFigure } from '../../coach/judgement/course-figure.ts';
import { courseView, focusView } from '../../coach/judgement/course-view.ts';
import { FIGURE_FORMS, figureFile } from '../../figures/figure-files.ts';
import { fault, FaultError } from '../../../shared/fault.ts';
import { athleteLines, athleteRecord } from '../../coach/people/athlete-record.ts';
import { addFocus, addMeasure, changeFocus, markMeasureDeleted, setSensors } from '../../coach/athlete-records.ts';
import { erasePerson } from '../../coach/people/erase-person.ts';
import { personExport } from '../../coach/people/person-export.ts';
import { setReturning } from '../../coach/returning.ts';
import { markDeleted } from '../../coach/soft-deletion.ts';
import { EraseReceipt } from '../../../shared/schemas/coach/erase-receipt.ts';
import type { ApiRoutes } from '../../http/context.ts';
import { wordsOfRequest } from '../../http/request-language.ts';
import { deletable } from './deletable.ts';
import { localDate } from '../../../shared/dates.ts';

const tags = ['coach'];
const ofAthlete = Type.Object({ athlete_id: Id });
const lengthUnit = wordOf(['m', 'yd', 'ft'] as const);
const onDay = Type.Object({ today: Type.Optional(LocalDate), length: Type.Optional(lengthUnit) });

export const coachAthleteRoutes: ApiRoutes = async (app, { store, stopWorkOn }) => {
  app.get(
    '/coach/athletes',
    { schema: { tags, querystring: onDay, response: { 200: listOf(AthleteLine), default: FaultAnswer } } },
    async (request) => ({
      items: athleteLines(store, request.query.today ?? localDate(new Date()), wordsOfRequest(request)),
    }),
  );

  app.get(
    '/coach/athletes/:athlete_id',
    {
      schema: { tags, params: ofAthlete, querystring: onDay, response: { 200: AthleteRecord, default: FaultAnswer } },
    },
    async (request) => {
      const { params, query } = request;
      return athleteRecord(store, params.athlete_id, query.today ?? localDate(new Date()), wordsOfRequest(request));
    },
  );

  app.get(
    '/coach/athletes/:athlete_id/course',
    {
      schema: {
        tags,
        params: ofAthlete,
        querystring: Type.Object({
          quantity: Type.Optional(Type.String({ maxLength: 60 })),
          condition: Type.Optional(Type.String({ maxLength: 80 })),
          length: Type.Optional(lengthUnit),
          today: Type.Optional(LocalDate),
        }),
        response: { 200: CourseView, default: FaultAnswer },
      },
    },
    async (request) => {
      const { params, query } = request;
      const today = query.today ?? localDate(new Date());
      return courseView(store, params.athlete_id, query, today, wordsOfRequest(request));
    },
  );

  app.get(
    '/coach/athletes/:athlete_id/course/figure',
    {
      schema: {
        tags,
        params: ofAthlete,
        querystring: Type.Object({
          quantity: Type.String({ maxLength: 60 }),
          condition: Type.Optional(Type.String({ maxLength: 80 })),
          length: Type.Optional(lengthUnit),
          today: Type.Optional(LocalDate),
          form: wordOf(FIGURE_FORMS),
        }),
        description: 'The course of a quantity as a picture for a paper with its caption, or the numbers behind it.',
      },
    },
    async (request, reply) => {
      const { params, query } = request;
      const today = query.today ?? localDate(new Date());
      const { course } = courseView(store, params.athlete_id, query, today, wordsOfRequest(request));
      const figure = course?.quantity === query.quantity ? courseFigure(course) : null;
      if (!figure) {
        const { quantity } = query;
        throw new FaultError(fault('FIGURE_EMPTY.course', { quantity }, { athlete_id: params.athlete_id }));
      }
      const { type, body } = await figureFile(figure, query.form);
      return reply.type(type).send(body);
    },
  );

  app.get(
    '/coach/athletes/:athlete_id/focuses/:focus',
    {
      schema: {
        tags,
        params: Type.Object({ athlete_id: Id, focus: Type.String({ maxLength: 60 }) }),
        querystring: onDay,
        response: { 200: FocusView, default: FaultAnswer },
      },
    },
    async (request) => {
      const { params, query } = request;
      const today = query.today ?? localDate(new Date());
      return focusView(store, params.athlete_id, params.focus, today, query.length, wordsOfRequest(request));
    },
  );

  app.get(
    '/coach/athletes/:athlete_id/everything.zip',
    { schema: { tags, params: ofAthlete, summary: 'Everything kept about one person' } },
    async ({ params }, reply) =>
      reply
        .type('application/zip')
        .header('content-disposition', `attachment; filename="athlete-${params.athlete_id}-everything.zip"`)
        .send(personExport(store, params.athlete_id)),
  );

  app.post(
    '/coach/athletes/:athlete_id/erase',
    {
      schema: {
        tags,
        params: ofAthlete,
        summary: 'Erases one person for good; the name must be typed',
        body: Type.Object({ name: Type.String({ maxLength: 120 }) }, { additionalProperties: false }),
        response: { 200: EraseReceipt, default: FaultAnswer },
      },
    },
    async ({ params, body }) =>
      erasePerson(store, params.athlete_id, body.name, async (athlete_id) => {
        for (const stop of stopWorkOn) await stop(athlete_id);
      }),
  );

  app.post(
    '/coach/athletes/:athlete_id/measures',
    {
      schema: {
        tags,
        params: ofAthlete,
        body: NewAthleteMeasure,
        response: { 201: AthleteMeasure, default: FaultAnswer },
      },
    },
    async ({ params, body }, reply) => reply.status(201).send(addMeasure(store, params.athlete_id, body)),
  );

  app.put(
    '/coach/athletes/:athlete_id/sensors',
    {
      schema: {
        tags,
        params: ofAthlete,
        body: AthleteSensors,
        response: { 200: listOf(AthleteSensor), default: FaultAnswer },
      },
    },
    async ({ params, body }) => ({ items: setSensors(store, params.athlete_id, body.items) }),
  );

  const returningBody = Type.Object({ returning: Nullable(Returning) }, { additionalProperties: false });
  app.put(
    '/coach/athletes/:athlete_id/returning',
    {
      schema: {
        tags,
        params: ofAthlete,
        summary: 'Marks an athlete as returning from an injury: no comparison is made; null takes the mark away',
        body: returningBody,
        response: { 200: returningBody, default: FaultAnswer },
      },
    },
    async ({ params, body }) => ({ returning: setReturning(store, params.athlete_id, body.returning) }),
  );

  app.post(
    '/coach/athletes/:athlete_id/focuses',
    {
      schema: { tags, params: ofAthlete, body: NewAthleteFocus, response: { 201: AthleteFocus, default: FaultAnswer } },
    },
    async ({ params, body }, reply) => reply.status(201).send(addFocus(store, params.athlete_id, body)),
  );

  const ofFocus = Type.Object({ athlete_focus_id: Id });
  app.patch(
    '/coach/athlete-focuses/:athlete_focus_id',
    {
      schema: {
        tags,
        params: ofFocus,
        body: AthleteFocusChange,
        response: { 200: AthleteFocus, default: FaultAnswer },
      },
    },
    async ({ params, body }) => changeFocus(store, params.athlete_focus_id, body),
  );

  deletable(app, '/coach/athlete-focuses', 'athlete_focus_id', (id, deleted) =>
    markDeleted(store, 'athlete_focuses', id, deleted),
  );
  deletable(app, '/coach/measures', 'athlete_measure_id', (id, deleted) => markMeasureDeleted(store, id, deleted));
};
