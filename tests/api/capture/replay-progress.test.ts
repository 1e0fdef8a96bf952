import { expect, test } from 'vitest';
import { ReplayProgress } from '../../../api/capture/replay/replay-progress.ts';

const PLAYED = [
  { repetition_id: 11, athlete_id: 1, from_s: 4, to_s: 14 },
  { repetition_id: 21, athlete_id: 2, from_s: 18, to_s: 29 },
  { repetition_id: 12, athlete_id: 1, from_s: 33, to_s: 43 },
];
/** The play began at host time 100 s. */
const progress = () => new ReplayProgress(PLAYED, (host_s) => host_s - 100);

test('a result is the repetition of that athlete that was played at its time', () => {
  const replay = progress();
  expect(replay.ended(1, 106)).toBe(11);
  expect(replay.ended(2, 120)).toBe(21);
  expect(replay.ended(1, 136)).toBe(12);
  expect(replay.state()).toEqual({ repetition_ids: [11, 21, 12], total: 3 });
});
test('a result of somebody else, or between two repetitions, is none of them', () => {
  const replay = progress();
  expect(replay.ended(2, 106)).toBeNull();
  expect(replay.ended(1, 124)).toBeNull();
  expect(replay.ended(null, 106)).toBeNull();
  expect(replay.state()).toEqual({ repetition_ids: [], total: 3 });
});
test('a repetition that was found in two parts counts once', () => {
  const replay = progress();
  replay.ended(1, 106);
  replay.ended(1, 109);
  expect(replay.state()?.repetition_ids).toEqual([11]);
});
test('before the play has begun nothing is over, and without a session there is nothing to follow', () => {
  expect(new ReplayProgress(PLAYED, () => null).ended(1, 106)).toBeNull();
  expect(new ReplayProgress([], (host_s) => host_s).state()).toBeNull();
});
