import { told } from './told.ts';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { startServer } from '../../api/server/server.ts';
import type { Store } from '../../api/store/store.ts';
import { generateRepetition } from '../../seeds/generate-repetition.ts';
import type { Import } from '../../shared/schemas/import.ts';
import { sensorCsv } from './sensor-csv.ts';

const VITE_CONFIG = fileURLToPath(new URL('../../web/vite.config.ts', import.meta.url));

export interface ViewServer {
  address: string;
  store: Store;
  athlete_id: number;
  session_id: number;
  /** In running order. */
  repetition_ids: number[];
  close(): Promise<void>;
}

/** Two sensor files of one 40 yd repetition, as CSV, and its hand time. */
export function recordingFiles(seed: number): { left: string; right: string; time_s: number } {
  const { sensors, truth } = generateRepetition({
    seed,
    runner: { full_speed_mps: 8.4 },
    repetitions: [{ effort: 1, distance_m: 36.576 }],
    mountings: ['foot'],
    sensor: { rate_hz: 500 },
    internal_rate_hz: 2000,
  });
  return {
    left: sensorCsv(sensors.foot.left),
    right: sensorCsv(sensors.foot.right),
    time_s: truth.repetitions[0].time_s ?? 0,
  };
}

/** Builds a view of one's own from the sources. */
export async function buildViewInto(web_folder: string): Promise<void> {
  await build({ configFile: VITE_CONFIG, logLevel: 'error', build: { outDir: web_folder } });
}

/** The real server on a database of its own, with a view of its own built from the sources, and one athlete's session of two repetitions. */
export async function startViewServer(): Promise<ViewServer> {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-view-'));
  const web_folder = join(folder, 'web');
  await buildViewInto(web_folder);
  const server = await startServer({ data_folder: join(folder, 'data'), web_folder, port: 0 });
  const { address } = server;
  const post = async <T>(path: string, body: unknown) => {
    const headers = { 'content-type': 'application/json' };
    const answer = await fetch(`${address}/api${path}`, { method: 'POST', headers, body: JSON.stringify(body) });
    return (await answer.json()) as T;
  };
  const { athlete_id } = await post<{ athlete_id: number }>('/athletes', { name: 'Wren Abara', body_mass_kg: 61 });
  const { session_id } = await post<{ session_id: number }>('/sessions', {
    session_date: '2026-11-24',
    title: 'Speed, 40 yd',
  });
  const repetition_ids: number[] = [];
  for (const seed of [11, 12]) {
    const { left, right, time_s } = recordingFiles(seed);
    const form = new FormData();
    const fields = { athlete_id, session_id, mounting: 'foot', course: '40yd', time: `${time_s.toFixed(2)}s` };
    for (const [name, value] of Object.entries({ ...fields, timing_method: 'hand', effort_percent: 100 })) {
      form.append(name, String(value));
    }
    form.append('left', new Blob([left]), 'left.csv');
    form.append('right', new Blob([right]), 'right.csv');
    const begun = await fetch(`${address}/api/imports`, { method: 'POST', body: form });
    repetition_ids.push(...(await finished(address, ((await begun.json()) as { import_id: number }).import_id)));
  }
  return {
    address,
    store: server.store,
    athlete_id,
    session_id,
    repetition_ids,
    close: async () => {
      await server.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

async function finished(address: string, import_id: number): Promise<number[]> {
  for (;;) {
    const now = (await (await fetch(`${address}/api/imports/${import_id}`)).json()) as Import;
    if (now.state === 'done') return now.repetition_ids;
    if (now.state === 'failed') throw new Error(told(now.fault).message);
    await wait(25);
  }
}
