import type { FastifyReply, FastifyRequest } from 'fastify';
import { type Static, Type } from 'typebox';
import { Report } from '../../../shared/schemas/coach/report.ts';
import { FaultAnswer, Id, LocalDate, wordOf } from '../../../shared/schemas/common.ts';
import { monthReport } from '../../coach/report/month-report.ts';
import { repetitionReport } from '../../coach/report/repetition-report.ts';
import { reportPdf } from '../../coach/report/report-pdf.ts';
import { sessionReport } from '../../coach/report/session-report.ts';
import type { ApiRoutes } from '../../http/context.ts';
import { wordsOfRequest } from '../../http/request-language.ts';
import { localDate } from '../../../shared/dates.ts';

const tags = ['coach'];
const query = Type.Object({
  length: Type.Optional(wordOf(['m', 'yd', 'ft'] as const)),
  today: Type.Optional(LocalDate),
});
const month = Type.String({ pattern: '^(19|20|21)\\d{2}-(0[1-9]|1[0-2])$' });

/** One-page reports: as data for the print view, and as PDF at the same address with `.pdf`. */
export const reportRoutes: ApiRoutes = async (app, { store }) => {
  const response = { 200: Report, default: FaultAnswer };
  const asPdf = async (request: FastifyRequest, reply: FastifyReply, report: Report) => {
    const pdf = await reportPdf(report, wordsOfRequest(request));
    const name = `${report.kind}-${report.date}.pdf`;
    return reply.type('application/pdf').header('content-disposition', `inline; filename="${name}"`).send(pdf);
  };

  const repetition = Type.Object({ repetition_id: Id });
  type OfRepetition = { params: Static<typeof repetition>; query: Static<typeof query> };
  const ofRepetition = (request: Pick<FastifyRequest, 'headers'> & OfRepetition) =>
    repetitionReport(store, request.params.repetition_id, request.query.length ?? 'm', wordsOfRequest(request));
  app.get(
    '/coach/reports/repetition/:repetition_id',
    { schema: { tags, params: repetition, querystring: query, response } },
    async (request) => ofRepetition(request),
  );
  app.get(
    '/coach/reports/repetition/:repetition_id/page.pdf',
    { schema: { tags, params: repetition, querystring: query } },
    async (request, reply) => asPdf(request, reply, ofRepetition(request)),
  );

  const session = Type.Object({ session_id: Id, athlete_id: Id });
  type OfSession = { params: Static<typeof session>; query: Static<typeof query> };
  const ofSession = (request: Pick<FastifyRequest, 'headers'> & OfSession) => {
    const { params, query } = request;
    return sessionReport(store, params.session_id, params.athlete_id, query.length ?? 'm', wordsOfRequest(request));
  };
  app.get(
    '/coach/reports/session/:session_id/:athlete_id',
    { schema: { tags, params: session, querystring: query, response } },
    async (request) => ofSession(request),
  );
  app.get(
    '/coach/reports/session/:session_id/:athlete_id/page.pdf',
    { schema: { tags, params: session, querystring: query } },
    async (request, reply) => asPdf(request, reply, ofSession(request)),
  );

  const monthOf = Type.Object({ athlete_id: Id, month });
  type OfMonth = { params: Static<typeof monthOf>; query: Static<typeof query> };
  const ofMonth = (request: Pick<FastifyRequest, 'headers'> & OfMonth) => {
    const { params, query } = request;
    const today = query.today ?? localDate(new Date());
    const words = wordsOfRequest(request);
    return monthReport(store, params.athlete_id, { month: params.month, today }, query.length ?? 'm', words);
  };
  app.get(
    '/coach/reports/month/:athlete_id/:month',
    { schema: { tags, params: monthOf, querystring: query, response } },
    async (request) => ofMonth(request),
  );
  app.get(
    '/coach/reports/month/:athlete_id/:month/page.pdf',
    { schema: { tags, params: monthOf, querystring: query } },
    async (request, reply) => asPdf(request, reply, ofMonth(request)),
  );
};
