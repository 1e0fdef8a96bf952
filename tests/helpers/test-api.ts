import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FastifyInstance } from 'fastify';
import { buildApp } from '../../api/server/app.ts';
import { Store } from '../../api/store/store.ts';
import type { Import, ImportAccepted } from '../../shared/schemas/import.ts';

export interface Answer<Body> {
  status: number;
  body: Body;
}

/** An API on a fresh database in a folder of its own, called without a port. */
export interface TestApi {
  app: FastifyInstance;
  store: Store;
  folder: string;
  // biome-ignore lint/suspicious/noExplicitAny: tests look into answers of every shape
  call<Body = any>(
    method: 'GET' | 'POST' | 'PATCH' | 'DELETE' | 'PUT',
    path: string,
    body?: unknown,
  ): Promise<Answer<Body>>;
  /** Sends files and fields as a form; waits for the import's end when it was taken. */
  import(fields: Record<string, unknown>, files: Record<string, string | Uint8Array>): Promise<Answer<Import>>;
  /** Makes an athlete and a session to put things in. */
  athleteAndSession(): Promise<{ athlete_id: number; session_id: number }>;
  close(): Promise<void>;
}

export async function openTestApi(folder = mkdtempSync(join(tmpdir(), 'cinderlane-test-'))): Promise<TestApi> {
  const store = Store.open(join(folder, 'cinderlane.sqlite'));
  const app = await buildApp({ store });
  await app.ready();
  const api: TestApi = {
    app,
    store,
    folder,
    async call(method, path, body?: unknown) {
      const answer = await app.inject({ method, url: `/api${path}`, payload: body as object });
      const json = String(answer.headers['content-type']).includes('json');
      return { status: answer.statusCode, body: (json ? answer.json() : answer.body) as never };
    },
    async import(fields, files) {
      const { status, body } = await sendForm(app, fields, files);
      if (status !== 202) return { status, body: body as unknown as Import };
      return { status, body: await endOfImport(api, body.import_id) };
    },
    async athleteAndSession() {
      const { body: athlete } = await api.call('POST', '/athletes', { name: 'Rosa Quill' });
      const { body: session } = await api.call('POST', '/sessions', { session_date: '2026-03-02' });
      return { athlete_id: athlete.athlete_id, session_id: session.session_id };
    },
    async close() {
      await app.close();
      store.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
  return api;
}

export async function sendForm(
  app: FastifyInstance,
  fields: Record<string, unknown>,
  files: Record<string, string | Uint8Array>,
): Promise<Answer<ImportAccepted>> {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.set(name, String(value));
  for (const [side, bytes] of Object.entries(files)) form.set(side, new Blob([bytes as BlobPart]), `${side}.csv`);
  const answer = await postForm(app, '/api/imports', form);
  return { status: answer.statusCode, body: answer.json() };
}

/** Sends a form with files as a browser packs it. */
export async function postForm(app: FastifyInstance, url: string, form: FormData, language = 'en') {
  const packed = new Response(form);
  return app.inject({
    method: 'POST',
    url,
    payload: Buffer.from(await packed.arrayBuffer()),
    headers: { 'content-type': packed.headers.get('content-type')!, 'accept-language': language },
  });
}

/** Waits for an import's end over its event stream, as the view does. */
async function endOfImport(api: TestApi, importId: number): Promise<Import> {
  const events = await api.app.inject({ method: 'GET', url: `/api/imports/${importId}/events` });
  const last = events.body.trim().split('\n').at(-1)!;
  return JSON.parse(last.slice('data: '.length)) as Import;
}
