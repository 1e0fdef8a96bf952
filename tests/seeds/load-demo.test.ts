import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { clientOf } from '../../api/command-line/api-client.ts';
import { startServer } from '../../api/server/server.ts';
import { loadDemo } from '../../seeds/load-demo.ts';
import type { AthleteList } from '../../shared/schemas/athlete.ts';
import type { RepetitionList } from '../../shared/schemas/repetition.ts';

const folder = mkdtempSync(join(tmpdir(), 'cinderlane-demo-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('loads a small club through the API, every repetition analysed', async () => {
  const server = await startServer({ data_folder: folder, port: 0 });
  try {
    const api = clientOf(server.address);
    const result = await loadDemo(api, { today: '2026-11-25', athletes: 2, weeks: 1, repetitions: 1 });
    expect(result.failed).toEqual([]);
    expect((await api.call<AthleteList>('GET', '/athletes')).items).toHaveLength(2);
    const { items } = await api.call<RepetitionList>('GET', '/repetitions');
    expect(items).toHaveLength(result.repetitions);
    for (const line of items) {
      expect(line.state).toBe('analysed');
      expect(line.figures?.contacts).toBeGreaterThan(15);
      expect(line.course_time_s).toBeGreaterThan(4);
    }
  } finally {
    await server.close();
  }
});
