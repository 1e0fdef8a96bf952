import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { Type } from 'typebox';
import { fault, FaultError } from '../../shared/fault.ts';
import { machineRadio } from '../../ingest/ble/sources/machine/machine-radio.ts';
import {
  BrowserBatchAnswer,
  BrowserBatchQuery,
  BrowserSensor,
  CaptureStart,
  CaptureState,
  CaptureStop,
  ReplayStart,
  SensorPlace,
  SensorPlaceChange,
} from '../../shared/schemas/capture.ts';
import { Done, FaultAnswer, Id } from '../../shared/schemas/common.ts';
import { CaptureDetail, CaptureList, DescriptionRemarks, FetchedRecordings } from '../../shared/schemas/captures.ts';
import { checkDescription } from '../../ingest/ble/description/read-stream-description.ts';
import { ExplorationState } from '../../shared/schemas/exploration.ts';
import { StreamDescription } from '../../shared/schemas/stream-description.ts';
import { captureDataFolder } from '../capture/recording/capture-folder.ts';
import { CaptureService } from '../capture/capture-service.ts';
import type { ApiRoutes } from '../http/context.ts';
import { sendEvents } from '../http/send-events.ts';

const tags = ['capture'];
/** A page sends some hundred milliseconds of packets at once, 256 kB at most (web/pages/live/outbox.ts); a packet may be long. */
const LARGEST_BATCH_BYTES = 2 * 1024 * 1024;
const params = Type.Object({ sensor_id: Type.String({ minLength: 1, maxLength: 80 }) });
const uuid = Type.String({ maxLength: 36 });
const done = { ok: true as const };

export const captureRoutes: ApiRoutes = async (app, { store, radio, stopWorkOn }) => {
  const folder = captureDataFolder(store);
  let made: CaptureService | null = null;
  const service = () => {
    made ??= new CaptureService({ store, folder, radio: machineRadio(radio) });
    return made;
  };
  app.addHook('onReady', async () => {
    // Not waited for: the server listens first.
    if (store.read_only === null && existsSync(join(folder, 'captures'))) void service().recover();
  });
  stopWorkOn.push(async (athlete_id) => made?.stopWearing(athlete_id));
  app.addHook('preClose', async () => made?.close());
  app.addContentTypeParser('application/octet-stream', { parseAs: 'buffer' }, (_request, body, next) =>
    next(null, body),
  );

  app.get('/capture', { schema: { tags, response: { 200: CaptureState, default: FaultAnswer } } }, async () =>
    service().state(),
  );

  app.get(
    '/capture/events',
    {
      schema: {
        tags,
        description:
          'Server-sent events: state, signal, contacts, repetition, stored; shapes in shared/schemas/capture.ts.',
      },
    },
    (request, reply) => {
      sendEvents(request, reply, (send) => service().listen((event, value) => send(event, value)));
    },
  );

  app.get(
    '/capture/descriptions',
    {
      schema: {
        tags,
        description: 'The stream descriptions there are, and which of them were added here.',
        response: {
          200: Type.Object({ items: Type.Array(StreamDescription), added: Type.Array(Type.String()) }),
          default: FaultAnswer,
        },
      },
    },
    async () => ({ items: service().descriptions.all(), added: service().descriptions.added() }),
  );

  app.post(
    '/capture/descriptions',
    {
      schema: {
        tags,
        description: 'Adds a stream description, or replaces the one with its identifier.',
        body: Type.Record(Type.String({ maxLength: 80 }), Type.Unknown(), { maxProperties: 60 }),
        response: { 201: StreamDescription, default: FaultAnswer },
      },
    },
    async ({ body }, reply) => reply.status(201).send(service().addDescription(JSON.stringify(body))),
  );

  app.post(
    '/capture/descriptions/check',
    {
      schema: {
        tags,
        description: 'Checks a stream description without keeping it: every fault at its place, in words.',
        body: Type.Object({ text: Type.String({ maxLength: 200_000 }) }, { additionalProperties: false }),
        response: { 200: DescriptionRemarks, default: FaultAnswer },
      },
    },
    async ({ body }) => {
      const { faults, warnings } = checkDescription(body.text);
      return { faults, warnings };
    },
  );

  const strict = { additionalProperties: false } as const;
  const explored = { schema: { tags, response: { 200: ExplorationState, default: FaultAnswer } } };

  app.post(
    '/capture/explore',
    {
      schema: {
        tags,
        description: 'Connects a sensor only to see how it speaks: what it offers, and its packets as they come.',
        body: Type.Object({ sensor_id: Type.String({ minLength: 1, maxLength: 80 }) }, strict),
        response: { 200: ExplorationState, default: FaultAnswer },
      },
    },
    async ({ body }) => (await service().explore(body.sensor_id)).state(),
  );

  app.get('/capture/explore', explored, async () => service().explored().state());

  app.post(
    '/capture/explore/listen',
    {
      schema: {
        tags,
        body: Type.Object({ service_uuid: uuid, characteristic_uuid: uuid }, strict),
        response: { 200: ExplorationState, default: FaultAnswer },
      },
    },
    async ({ body }) => {
      await service().explored().listen(body.service_uuid, body.characteristic_uuid);
      return service().explored().state();
    },
  );

  app.post(
    '/capture/explore/try',
    {
      schema: {
        tags,
        description: 'Writes the start of a description, and decodes by it from now on.',
        body: Type.Object({ text: Type.String({ maxLength: 200_000 }) }, strict),
        response: { 200: ExplorationState, default: FaultAnswer },
      },
    },
    async ({ body }) => {
      await service().explored().try(body.text);
      return service().explored().state();
    },
  );

  app.delete('/capture/explore', { schema: { tags, response: { 200: Done, default: FaultAnswer } } }, async () => {
    await service().endExploration();
    return done;
  });

  app.delete(
    '/capture/descriptions/:description_id',
    {
      schema: {
        tags,
        description: 'Removes a description that was added; the shipped ones stay.',
        params: Type.Object({ description_id: Type.String({ pattern: '^[a-z0-9][a-z0-9-]{0,39}$' }) }),
        response: { 200: Done, default: FaultAnswer },
      },
    },
    async (request) => {
      service().removeDescription(request.params.description_id);
      return done;
    },
  );

  const capture_params = Type.Object({ capture_id: Type.String({ pattern: '^[A-Za-z0-9-]{1,80}$' }) });
  const log_params = Type.Object({ ...capture_params.properties, ...params.properties });

  app.get('/captures', { schema: { tags, response: { 200: CaptureList, default: FaultAnswer } } }, async () =>
    service().archive.list(),
  );

  app.get(
    '/captures/:capture_id',
    { schema: { tags, params: capture_params, response: { 200: CaptureDetail, default: FaultAnswer } } },
    async (request) => service().archive.open(request.params.capture_id),
  );

  app.post(
    '/captures/:capture_id/analyse',
    {
      schema: {
        tags,
        description: 'Looks for repetitions again, and stores those that are not in the store.',
        params: capture_params,
        response: { 200: Type.Object({ stored: Type.Integer() }), default: FaultAnswer },
      },
    },
    async (request) => service().archive.analyse(request.params.capture_id),
  );

  app.post(
    '/captures/:capture_id/replay',
    { schema: { tags, params: capture_params, response: { 200: CaptureState, default: FaultAnswer } } },
    async (request) => {
      await service().replayCapture(request.params.capture_id);
      return service().state();
    },
  );

  app.get(
    '/captures/:capture_id/logs/:sensor_id/samples.csv',
    { schema: { tags, description: "One sensor's samples as a file.", params: log_params } },
    async (request, reply) => {
      const { capture_id, sensor_id } = request.params;
      const text = Readable.from(await service().archive.csv(capture_id, sensor_id));
      const name = `${capture_id}-${sensor_id.replace(/[^A-Za-z0-9]+/g, '-')}.csv`;
      return reply
        .header('content-disposition', `attachment; filename="${name}"`)
        .type('text/csv; charset=utf-8')
        .send(text);
    },
  );

  app.delete(
    '/captures/:capture_id/logs/:sensor_id',
    { schema: { tags, params: log_params, response: { 200: Done, default: FaultAnswer } } },
    async (request) => {
      service().archive.deleteLog(request.params.capture_id, request.params.sensor_id);
      return done;
    },
  );

  app.post(
    '/capture/search',
    {
      schema: {
        tags,
        description: 'Starts or stops looking for sensors.',
        body: Type.Object({ on: Type.Boolean() }, { additionalProperties: false }),
        response: { 200: Done, default: FaultAnswer },
      },
    },
    async ({ body }) => {
      await service().search(body.on);
      return done;
    },
  );

  app.put(
    '/capture/checks/:sensor_id',
    {
      schema: {
        tags,
        description:
          'Holds a sensor with the service Running Speed and Cadence: what it says is shown beside what is measured, and never enters a result.',
        params,
        body: Type.Object({ athlete_id: Type.Union([Id, Type.Null()]) }, { additionalProperties: false }),
        response: { 200: CaptureState, default: FaultAnswer },
      },
    },
    async (request) => {
      await service().addCheck(request.params.sensor_id, request.body.athlete_id);
      return service().state();
    },
  );

  app.delete(
    '/capture/checks/:sensor_id',
    { schema: { tags, params, response: { 200: Done, default: FaultAnswer } } },
    async (request) => {
      await service().removeCheck(request.params.sensor_id);
      return done;
    },
  );

  app.put(
    '/capture/sensors/:sensor_id',
    { schema: { tags, params, body: SensorPlaceChange, response: { 200: SensorPlace, default: FaultAnswer } } },
    async (request) => service().place(request.params.sensor_id, request.body),
  );

  app.post(
    '/capture/sensors/:sensor_id/fetch',
    {
      schema: {
        tags,
        description:
          "Fetches the recordings in the memories of a paired sensor and of the one on the athlete's other foot; those of one run become one capture, and are analysed. Goes on where it stopped.",
        params,
        body: Type.Object({ clear: Type.Optional(Type.Boolean()) }, { additionalProperties: false }),
        response: {
          200: FetchedRecordings,
          default: FaultAnswer,
        },
      },
    },
    async (request) => service().fetchRecordings(request.params.sensor_id, request.body.clear ?? false),
  );

  app.delete(
    '/capture/sensors/:sensor_id',
    { schema: { tags, params, response: { 200: Done, default: FaultAnswer } } },
    async (request) => {
      service().forget(request.params.sensor_id);
      return done;
    },
  );

  app.post(
    '/capture/start',
    {
      schema: {
        tags,
        description: 'Connects the paired sensors and records until stop.',
        body: Type.Optional(CaptureStart),
        response: { 200: CaptureState, default: FaultAnswer },
      },
    },
    async ({ body }) => {
      service().start(body ?? {});
      return service().state();
    },
  );

  app.post(
    '/capture/replay',
    {
      schema: {
        tags,
        description:
          "Plays a stored session's packets, everybody's or one athlete's, through the whole path. Its results are not stored.",
        body: ReplayStart,
        response: { 200: CaptureState, default: FaultAnswer },
      },
    },
    async ({ body }) => {
      await service().startReplay(body.session_id, body.athlete_id, body.speed);
      return service().state();
    },
  );

  app.post(
    '/capture/stop',
    {
      schema: {
        tags,
        description: 'Ends the capture. Packets that the disk does not take go on waiting, unless they are given up.',
        body: Type.Optional(Type.Union([CaptureStop, Type.Null()])),
        response: { 200: CaptureState, default: FaultAnswer },
      },
    },
    async ({ body }) => {
      await service().stop(body?.discard_waiting);
      return service().state();
    },
  );

  app.post(
    '/capture/mark',
    {
      schema: {
        tags,
        description: "The coach's own start and stop of a repetition.",
        body: Type.Object({ mark: Type.Enum(['start', 'stop']) }, { additionalProperties: false }),
        response: { 200: CaptureState, default: FaultAnswer },
      },
    },
    async ({ body }) => {
      await service().mark(body.mark as 'start' | 'stop');
      return service().state();
    },
  );

  app.post(
    '/capture/browser/:sensor_id',
    { schema: { tags, params, body: BrowserSensor, response: { 200: Done, default: FaultAnswer } } },
    async (request) => {
      const { sensor_id } = request.params;
      service().browser.announce({ sensor_id, ...request.body });
      return done;
    },
  );

  app.post(
    '/capture/browser/:sensor_id/packets',
    {
      bodyLimit: LARGEST_BATCH_BYTES,
      schema: {
        tags,
        params,
        querystring: BrowserBatchQuery,
        response: { 200: BrowserBatchAnswer, default: FaultAnswer },
      },
    },
    async (request) => {
      const { page, first, sent_s } = request.query;
      if (!Buffer.isBuffer(request.body))
        throw new FaultError(fault('REQUEST_INVALID.other', { why: 'the body is to be application/octet-stream' }));
      const bytes = request.body;
      return { next_record: service().browser.receive(request.params.sensor_id, page, first, sent_s, bytes) };
    },
  );
};
