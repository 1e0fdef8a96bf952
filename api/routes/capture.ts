import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Type } from 'typebox';
import { NodeBleSource } from '../../ingest/ble/sources/node-ble/node-ble-source.ts';
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
import { Done, FaultAnswer, listOf } from '../../shared/schemas/common.ts';
import { StreamDescription } from '../../shared/schemas/stream-description.ts';
import { captureDataFolder } from '../capture/recording/capture-folder.ts';
import { CaptureService } from '../capture/capture-service.ts';
import type { ApiRoutes } from '../http/context.ts';
import { sendEvents } from '../http/send-events.ts';

const tags = ['capture'];
const params = Type.Object({ sensor_id: Type.String({ minLength: 1, maxLength: 80 }) });
const done = { ok: true as const };

export const captureRoutes: ApiRoutes = async (app, { store, stopWorkOn }) => {
  const folder = captureDataFolder(store);
  let made: CaptureService | null = null;
  const service = () => {
    made ??= new CaptureService({ store, folder, radio: new NodeBleSource() });
    return made;
  };
  app.addHook('onReady', async () => {
    if (existsSync(join(folder, 'captures'))) await service().recover();
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
    { schema: { tags, response: { 200: listOf(StreamDescription), default: FaultAnswer } } },
    async () => ({ items: service().descriptions.all() }),
  );

  app.post(
    '/capture/descriptions',
    {
      schema: {
        tags,
        description: 'Adds a stream description, or replaces the one with its identifier.',
        body: Type.Record(Type.String(), Type.Unknown()),
        response: { 201: StreamDescription, default: FaultAnswer },
      },
    },
    async ({ body }, reply) => reply.status(201).send(service().descriptions.add(JSON.stringify(body))),
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
    '/capture/sensors/:sensor_id',
    { schema: { tags, params, body: SensorPlaceChange, response: { 200: SensorPlace, default: FaultAnswer } } },
    async (request) => service().place(request.params.sensor_id, request.body),
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
        description: "Plays a stored session's packets through the whole path. Its results are not stored.",
        body: ReplayStart,
        response: { 200: CaptureState, default: FaultAnswer },
      },
    },
    async ({ body }) => {
      service().startReplay(body.session_id, body.athlete_id, body.speed);
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
      schema: {
        tags,
        params,
        querystring: BrowserBatchQuery,
        response: { 200: BrowserBatchAnswer, default: FaultAnswer },
      },
    },
    async (request) => {
      const { page, batch, sent_s } = request.query;
      const bytes = request.body as Buffer;
      return { next_batch: service().browser.receive(request.params.sensor_id, page, batch, sent_s, bytes) };
    },
  );
};
