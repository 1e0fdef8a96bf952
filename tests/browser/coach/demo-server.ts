import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { startServer } from '../../../api/server/server.ts';
import type { Store } from '../../../api/store/store.ts';
import { type DemoApi, loadDemo } from '../../../seeds/load-demo.ts';
import { recordingFiles } from '../../helpers/view-server.ts';

const VITE_CONFIG = fileURLToPath(new URL('../../../web/vite.config.ts', import.meta.url));

export interface RunOptions {
  /** False: nobody took its time. */
  timed?: boolean;
}

export interface DemoServer {
  address: string;
  store: Store;
  api: DemoApi;
  /** Brings in one 40 yd repetition at full effort and waits for its result. */
  run(athlete_id: number, session_id: number, seed: number, options?: RunOptions): Promise<number>;
  close(): Promise<void>;
}

/** The real server with a view built from the sources and a small demo club: four athletes, a week of full-speed evenings. */
export async function startDemoServer(): Promise<DemoServer> {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-evening-'));
  const web_folder = join(folder, 'web');
  await build({ configFile: VITE_CONFIG, logLevel: 'error', build: { outDir: web_folder } });
  const server = await startServer({ data_folder: join(folder, 'data'), web_folder, port: 0 });
  const api: DemoApi = {
    async call(method, path, body) {
      const json = body !== undefined && !(body instanceof FormData);
      const answer = await fetch(`${server.address}/api${path}`, {
        method,
        body: json ? JSON.stringify(body) : (body as FormData | undefined),
        headers: json ? { 'content-type': 'application/json' } : undefined,
      });
      const value = await answer.json();
      if (!answer.ok) throw new Error(`${method} ${path}: ${JSON.stringify(value)}`);
      return value;
    },
  };
  const loaded = await loadDemo(api, { athletes: 4, weeks: 1, repetitions: 2, part_speed: false });
  if (loaded.failed.length > 0) throw new Error(loaded.failed.join('; '));
  return {
    address: server.address,
    store: server.store,
    api,
    run: (athlete_id, session_id, seed, options) => run(api, athlete_id, session_id, seed, options),
    close: async () => {
      await server.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

async function run(
  api: DemoApi,
  athlete_id: number,
  session_id: number,
  seed: number,
  { timed = true }: RunOptions = {},
): Promise<number> {
  const { left, right, time_s } = recordingFiles(seed);
  const form = new FormData();
  const fields = {
    athlete_id,
    session_id,
    mounting: 'foot',
    course: '40yd',
    ...(timed ? { time: `${time_s.toFixed(2)}s`, timing_method: 'hand' } : {}),
    effort_percent: 100,
    start_style: 'standing',
  };
  for (const [name, value] of Object.entries(fields)) form.set(name, String(value));
  form.set('left', new Blob([left]), `left-${seed}.csv`);
  form.set('right', new Blob([right]), `right-${seed}.csv`);
  const { import_id } = await api.call<{ import_id: number }>('POST', '/imports', form);
  for (;;) {
    const state = await api.call<{ state: string; repetition_ids: number[] }>('GET', `/imports/${import_id}`);
    if (state.state === 'done') return state.repetition_ids[0];
    if (state.state === 'failed') throw new Error(JSON.stringify(state));
    await new Promise((resolve) => setTimeout(resolve, 30));
  }
}
