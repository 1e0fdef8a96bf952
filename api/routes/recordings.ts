import { Readable } from 'node:stream';
import { Type } from 'typebox';
import { FaultAnswer, Id } from '../../shared/schemas/common.ts';
import { Recording } from '../../shared/schemas/recording.ts';
import type { ApiRoutes } from '../http/context.ts';
import { notFound } from '../store/not-found.ts';
import { readRawFile } from '../store/raw-files.ts';
import { getRecording } from '../store/recordings.ts';

const params = Type.Object({ recording_id: Id });
const tags = ['recordings'];

export const recordingRoutes: ApiRoutes = async (app, { store }) => {
  app.get(
    '/recordings/:recording_id',
    { schema: { tags, params, response: { 200: Recording, default: FaultAnswer } } },
    async (request) => getRecording(store, request.params.recording_id).recording,
  );

  app.get(
    '/recordings/:recording_id/raw',
    { schema: { tags, params, description: "The sensor's file, or packet log, exactly as it came." } },
    async (request, reply) => {
      const { recording, raw_file_id } = getRecording(store, request.params.recording_id);
      if (raw_file_id === null) throw notFound('recording', recording.recording_id);
      return reply
        .type('application/octet-stream')
        .header('content-disposition', `attachment; filename*=UTF-8''${encodeURIComponent(recording.file_name)}`)
        .send(Readable.from(readRawFile(store, raw_file_id)));
    },
  );
};
