import { Type } from 'typebox';
import { FaultAnswer, Id } from '../../shared/schemas/common.ts';
import {
  ConsentChange,
  ExportOrder,
  ResearchConsent,
  ResearchConsentList,
  ResearchExport,
  ResearchExportList,
} from '../../shared/schemas/export.ts';
import type { ApiRoutes } from '../http/context.ts';
import { mayTakeNames } from '../access/may-take-names.ts';
import { changeConsent, listConsents } from '../export/consents.ts';
import { getExport, listExports, recordExport } from '../export/export-records.ts';
import { select } from '../export/selection.ts';
import { zipOf } from '../export/sink.ts';
import { writeExport } from '../export/formats/write-export.ts';

const tags = ['research export'];

/** Exports for research: who agreed, what was exported when, and the archive itself. */
export const exportRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/research-consents',
    { schema: { tags, response: { 200: ResearchConsentList, default: FaultAnswer } } },
    async () => ({ items: listConsents(store) }),
  );

  app.put(
    '/athletes/:athlete_id/research-consent',
    {
      schema: {
        tags,
        params: Type.Object({ athlete_id: Id }),
        body: ConsentChange,
        response: { 200: ResearchConsent, default: FaultAnswer },
      },
    },
    async (request) => changeConsent(store, request.params.athlete_id, request.body),
  );

  app.get('/exports', { schema: { tags, response: { 200: ResearchExportList, default: FaultAnswer } } }, async () => ({
    items: listExports(store),
  }));

  app.post(
    '/exports',
    { schema: { tags, body: ExportOrder, response: { 201: ResearchExport, default: FaultAnswer } } },
    async (request, reply) => {
      mayTakeNames(request.caller, request.body);
      return reply.status(201).send(recordExport(store, request.body));
    },
  );

  app.get(
    '/exports/:export_id/archive',
    { schema: { tags, params: Type.Object({ export_id: Id }) } },
    async (request, reply) => {
      const made = getExport(store, request.params.export_id);
      mayTakeNames(request.caller, made.order);
      select(store, made.order); // a refusal must come before the first byte
      return reply
        .type('application/zip')
        .header('content-disposition', `attachment; filename="cinderlane-${made.order.kind}-${made.export_id}.zip"`)
        .send(zipOf((sink) => writeExport(store, made, sink)));
    },
  );
};
