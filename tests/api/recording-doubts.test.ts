import { afterAll, beforeAll, expect, test } from 'vitest';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';

let api: TestApi;
beforeAll(async () => {
  api = await openTestApi();
});
afterAll(() => api.close());

test('a session tells which of its recordings are doubted, by side, and no others', async () => {
  const place = await api.athleteAndSession();
  const { left, right } = sprintFiles();
  const mirrored = left.replace(/,(-?)([\d.]+)$/gm, (_, minus: string, size: string) => `,${minus ? '' : '-'}${size}`);
  const clean = await api.import(
    { ...place, mounting: 'foot' },
    { left: sprintFiles(8).left, right: sprintFiles(8).right },
  );
  const doubted = await api.import({ ...place, mounting: 'foot' }, { left: mirrored, right });
  const { body } = await api.call('GET', `/sessions/${place.session_id}`);
  expect(body.repetitions).toHaveLength(2);
  expect(body.recording_doubts).toEqual([
    { repetition_id: doubted.body.repetition_ids[0], code: 'AXES_DOUBTFUL', sides: ['left'] },
  ]);
  expect(clean.body.repetition_ids).toHaveLength(1);
  await api.call('DELETE', `/repetitions/${doubted.body.repetition_ids[0]}`);
  expect((await api.call('GET', `/sessions/${place.session_id}`)).body.recording_doubts).toEqual([]);
});
