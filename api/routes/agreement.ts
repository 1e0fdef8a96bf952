import { Type } from 'typebox';
import { METHOD } from '../../dsp/analyse.ts';
import {
  AgreementOrder,
  AgreementStudy,
  RepeatabilityOrder,
  RepeatabilityStudy,
} from '../../shared/schemas/agreement.ts';
import { FaultAnswer, wordOf } from '../../shared/schemas/common.ts';
import { readReference } from '../agreement/read-reference.ts';
import { repeatabilityStudy } from '../agreement/repeatability.ts';
import { agreementStudy, type StudyCase } from '../agreement/study.ts';
import { pairsCsv, quantitiesCsv } from '../agreement/study-csv.ts';
import { studyFigure } from '../agreement/study-figure.ts';
import { studyPdf } from '../agreement/study-pdf.ts';
import { type StudyPeople, studyPeople } from '../agreement/study-people.ts';
import { FIGURE_FORMS, figureFile } from '../figures/figure-files.ts';
import { fault, FaultError } from '../../shared/fault.ts';
import { wordsOfRequest } from '../http/request-language.ts';
import type { ApiRoutes } from '../http/context.ts';
import { listContacts } from '../store/analyses.ts';
import { getRepetitionLine } from '../store/repetitions.ts';
import type { Store } from '../store/store.ts';
import { notFound } from '../store/not-found.ts';

const tags = ['agreement'];

/** Agreement of stored repetitions with a reference system, and repeatability from session to session. */
export const agreementRoutes: ApiRoutes = async (app, { store }) => {
  app.post(
    '/agreement',
    { schema: { tags, body: AgreementOrder, response: { 200: AgreementStudy, default: FaultAnswer } } },
    async (request) => studyOf(store, request.body, studyPeople(store, request.caller)),
  );

  app.post(
    '/agreement/report',
    {
      schema: {
        tags,
        body: AgreementOrder,
        querystring: Type.Object({
          form: wordOf(['pdf', 'quantities', 'pairs', ...FIGURE_FORMS.map((one) => `figure_${one}` as const)]),
          quantity: Type.Optional(
            Type.String({ maxLength: 80, description: 'Of a figure: the quantity, as the comparison names it.' }),
          ),
        }),
      },
    },
    async (request, reply) => {
      const study = studyOf(store, request.body, studyPeople(store, request.caller));
      const { form, quantity } = request.query;
      const words = wordsOfRequest(request);
      const figure_form = FIGURE_FORMS.find((one) => form === `figure_${one}`);
      if (figure_form !== undefined) {
        const figure = quantity === undefined ? null : studyFigure(study, quantity, words);
        if (!figure)
          throw new FaultError(
            fault('FIGURE_EMPTY.study', { quantity: quantity ?? '' }, { quantity: quantity ?? null }),
          );
        const { type, body } = await figureFile(figure, figure_form);
        return reply.type(type).send(body);
      }
      if (form === 'pdf')
        return reply.type('application/pdf').send(await studyPdf(study, words.coach.agreement('study_title'), words));
      return reply.type('text/csv; charset=utf-8').send(form === 'pairs' ? pairsCsv(study) : quantitiesCsv(study));
    },
  );

  app.post(
    '/repeatability',
    { schema: { tags, body: RepeatabilityOrder, response: { 200: RepeatabilityStudy, default: FaultAnswer } } },
    async (request) => repeatabilityStudy(store, request.body, studyPeople(store, request.caller)),
  );
};

function studyOf(store: Store, order: AgreementOrder, people: StudyPeople): AgreementStudy {
  const cases = order.items.map(({ repetition_id, reference_csv }): StudyCase => {
    const line = getRepetitionLine(store, repetition_id);
    if (!people.mayRead(line.athlete_id))
      throw new FaultError(fault('CONSENT_NOT_GIVEN', { repetition_id }, { repetition_id }));
    if (line.analysis_id === null) throw notFound('analysis', repetition_id);
    return {
      recording: `repetition ${repetition_id}`,
      athlete: people.nameOf(line.athlete_id),
      contacts: listContacts(store, line.analysis_id),
      reference: readReference(reference_csv, `reference of repetition ${repetition_id}`),
    };
  });
  return agreementStudy(cases, order.reference_clock, METHOD);
}
