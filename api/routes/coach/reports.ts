import type { FastifyReply } from 'fastify';
import { Type } from 'typebox';
import { Report } from '../../../shared/schemas/coach/report.ts';
import { FaultAnswer, Id, LocalDate, wordOf } from '../../../shared/schemas/common.ts';
import { monthReport } from '../../coach/report/month-report.ts';
import { repetitionReport } from '../../coach/report/repetition-report.ts';
import { reportPdf } from '../../coach/report/report-pdf.ts';
import { sessionReport } from '../../coach/report/session-report.ts';
import type { ApiRoutes } from '../../http/context.ts';
import { localDate } from '../../../shared/dates.ts';

const tags = ['coach'];
const query = Type.Object({
  length: Type.Optional(wordOf(['m', 'yd', 'ft'] as const)),
  today: Type.Optional(LocalDate),
});
const month = Type.String({ pattern: '^\\d{4}-(0[1-9]|1[0-2])$' });

/** One-page reports: as data for the print view, and as PDF at the same address with `.pdf`. */
export const reportRoutes: ApiRoutes = async (app, { store }) => {
  const response = { 200: Report, default: FaultAnswer };
  const asPdf = async (reply: FastifyReply, report: Report) => {
    const pdf = await reportPdf(report);
    const name = `${report.kind}-${report.date}.pdf`;
    return reply.type('application/pdf').header('content-disposition', `inline; filename="${name}"`).send(pdf);
  };

  const repetition = Type.Object({ repetition_id: Id });
  app.get(
    '/coach/reports/repetition/:repetition_id',
    { schema: { tags, params: repetition, querystring: query, response } },
    async (request) => repetitionReport(store, request.params.repetition_id, request.query.length ?? 'm'),
  );
  app.get(
    '/coach/reports/repetition/:repetition_id/page.pdf',
    { schema: { tags, params: repetition, querystring: query } },
    async (request, reply) =>
      asPdf(reply, repetitionReport(store, request.params.repetition_id, request.query.length ?? 'm')),
  );

  const session = Type.Object({ session_id: Id, athlete_id: Id });
  app.get(
    '/coach/reports/session/:session_id/:athlete_id',
    { schema: { tags, params: session, querystring: query, response } },
    async ({ params, query: { length } }) => sessionReport(store, params.session_id, params.athlete_id, length ?? 'm'),
  );
  app.get(
    '/coach/reports/session/:session_id/:athlete_id/page.pdf',
    { schema: { tags, params: session, querystring: query } },
    async ({ params, query: { length } }, reply) =>
      asPdf(reply, sessionReport(store, params.session_id, params.athlete_id, length ?? 'm')),
  );

  const monthOf = Type.Object({ athlete_id: Id, month });
  app.get(
    '/coach/reports/month/:athlete_id/:month',
    { schema: { tags, params: monthOf, querystring: query, response } },
    async ({ params, query: { length, today } }) =>
      monthReport(store, params.athlete_id, params.month, today ?? localDate(new Date()), length ?? 'm'),
  );
  app.get(
    '/coach/reports/month/:athlete_id/:month/page.pdf',
    { schema: { tags, params: monthOf, querystring: query } },
    async ({ params, query: { length, today } }, reply) =>
      asPdf(reply, monthReport(store, params.athlete_id, params.month, today ?? localDate(new Date()), length ?? 'm')),
  );
};
