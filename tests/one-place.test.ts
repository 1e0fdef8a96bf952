/** Rules that once stood several times: each is looked for in the sources and may stand in its own file alone. */
import { describe, expect, test } from 'vitest';
import { code, sources, textOf } from './helpers/house.ts';

interface Place {
  rule: string;
  /** How the rule looks in code. */
  looks: RegExp;
  /** Files that may say it. */
  stands_in: string[];
}

const PLACES: Place[] = [
  {
    rule: "a sensor's clock against the common one",
    looks: /1 \+ (\w+\.)*clock_drift/,
    // Corrects the drift itself, from one window to the next.
    stands_in: ['shared/sensor-clock.ts', 'api/measuring/follow-clocks.ts', 'seeds/sensor/sensor-model.ts'],
  },
  {
    rule: 'means at speed, else over all',
    looks: /\bat_speed\b/,
    // The last is a file of means at speed alone, with their number beside them.
    stands_in: [
      'shared/at-speed.ts',
      'shared/schemas/analysis.ts',
      'dsp/repetitions/summary.ts',
      'api/measuring/repetitions-csv.ts',
    ],
  },
  { rule: 'the day where the device is', looks: /\.getMonth\(\)/, stands_in: ['shared/dates.ts'] },
  {
    rule: 'completed years',
    looks: /function \w*[aA]ge\w*\(birth/,
    stands_in: ['shared/dates.ts', 'api/export/exported-age.ts'],
  },
  { rule: 'a capital first letter', looks: /\.toUpperCase\(\).*\.slice\(1\)/, stands_in: ['shared/capital.ts'] },
  { rule: 'round ticks of an axis', looks: /function nice\w+\(/, stands_in: ['shared/nice-ticks.ts'] },
  { rule: 'a direction in space', looks: /type Vector3 =/, stands_in: ['dsp/numeric/rotation.ts'] },
  {
    rule: 'a straight line by least squares',
    looks: /function fitLine\(/,
    stands_in: ['dsp/numeric/least-squares.ts'],
  },
  {
    rule: 'the verdict on a repetition',
    looks: /function judgeRepetition\(/,
    stands_in: ['dsp/athlete/judge-repetition.ts'],
  },
  {
    rule: 'a repetition rests on recordings',
    looks: /insertInto\(''\)\.values\(\{ repetition_id: \w+, recording_id/,
    stands_in: ['api/store/record-repetition.ts'],
  },
];

const SOURCES = ['shared', 'ingest', 'dsp', 'api', 'web', 'seeds'].flatMap(sources).map((file) => ({
  file,
  text: code(textOf(file)),
}));

describe('one rule in one place', () => {
  test.each(PLACES)('$rule', ({ looks, stands_in }) => {
    const found = SOURCES.filter(({ text }) => looks.test(text)).map(({ file }) => file);
    expect(found.sort()).toEqual([...stands_in].sort());
  });
});
