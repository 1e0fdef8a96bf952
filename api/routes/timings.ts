import { fault, FaultError } from '../../shared/fault.ts';
import { FaultAnswer } from '../../shared/schemas/common.ts';
import { TimingAnswer, TimingQuery } from '../../shared/schemas/timing.ts';
import { applyTimingFile } from '../measuring/apply-timing-file.ts';
import { speechOfRequest } from '../http/request-language.ts';
import type { ApiRoutes } from '../http/context.ts';
import { getRepetitionLine } from '../store/repetitions.ts';

/** A day's times of a whole club are some kilobytes. */
const LARGEST_FILE_BYTES = 4 * 1024 * 1024;

export const timingRoutes: ApiRoutes = async (app, { store, jobs }) => {
  app.addContentTypeParser('text/csv', { parseAs: 'buffer', bodyLimit: LARGEST_FILE_BYTES }, (_request, body, done) =>
    done(null, body),
  );

  app.post(
    '/timings',
    {
      schema: {
        tags: ['timings'],
        consumes: ['text/csv'],
        description:
          'Gate, split and hand times as CSV (athlete, repetition, distance, time, method), matched to repetitions. Without ' +
          '`apply` nothing is changed; with it the repetitions are analysed again before the answer.',
        querystring: TimingQuery,
        response: { 200: TimingAnswer, default: FaultAnswer },
      },
    },
    async (request) => {
      const { file_name, method, apply = false } = request.query;
      const { body } = request;
      if (!Buffer.isBuffer(body))
        throw new FaultError(fault('REQUEST_INVALID.other', { why: 'the body is to be text/csv' }));
      const answer = applyTimingFile(store, body, { file_name, method, apply, speech: speechOfRequest(request) });
      if (apply) {
        const changed = answer.matched.filter(({ action }) => action !== 'keep').map((timing) => timing.repetition_id);
        const recorded = changed.filter((id) => getRepetitionLine(store, id).number_in_recording !== null);
        await Promise.all(recorded.map((id) => jobs.reanalyse(id)));
      }
      return answer;
    },
  );
};
