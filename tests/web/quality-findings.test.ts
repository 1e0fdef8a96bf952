import { expect, test } from 'vitest';
import type { SensorQuality } from '../../shared/analysis.ts';
import { wornFigures } from '../../web/pages/repetition/worn-findings.ts';
import { notesOf } from '../../web/pages/repetition/recording-note.tsx';
import { findingsOf } from '../../web/pages/repetition/quality-findings.ts';

const clean: SensorQuality = {
  side: 'left',
  mounting: 'foot',
  sampling_rate_hz: 500,
  jitter_ms: 0.01,
  samples: 5000,
  duration_s: 10,
  lost_samples: 0,
  gaps: [],
  acc_clipped_samples: 0,
  gyr_clipped_samples: 0,
  contacts_with_clipping: 0,
  resting_norm_mps2: 9.8,
  gyr_bias_radps: 0,
  acc_noise_mps2: 0.05,
  gyr_noise_radps: 0.01,
  bandwidth_hz: 90,
  verdicts: [],
  faults: [],
};
const pictures = (change: Partial<SensorQuality>) =>
  findingsOf({ ...clean, ...change }).map((finding) => finding.picture);

test('a clean recording is said to be clean, with nothing to do', () => {
  const [finding, ...rest] = findingsOf(clean);
  expect(rest).toEqual([]);
  expect(finding).toMatchObject({ picture: 'even', todo: '' });
});

test('every trouble gets its picture, what happened and what to do', () => {
  expect(pictures({ gaps: [{ start_s: 1, end_s: 1.1, lost_samples: 50 }], lost_samples: 50 })).toEqual(['gap']);
  expect(pictures({ acc_clipped_samples: 9, gyr_clipped_samples: 3 })).toEqual(['flat-top', 'flat-top']);
  expect(
    pictures({
      faults: [{ code: 'SENSOR_SCALE_DOUBTFUL', message: 'm', where: { resting_norm_mps2: 11 }, hint: 'h' }],
    }),
  ).toEqual(['off-level']);
  for (const finding of findingsOf({ ...clean, acc_clipped_samples: 9, sampling_rate_hz: 100 })) {
    expect(finding.what).not.toBe('');
    expect(finding.todo).not.toBe('');
  }
});

test('a low rate is too coarse only where the analysis says so', () => {
  const at = (fitness: SensorQuality['verdicts'][number]['fitness']) =>
    findingsOf({ ...clean, sampling_rate_hz: 100, verdicts: [{ quantity: 'contact_time_ms', fitness, why: '' }] })[0]
      .what;
  expect(at('usable with wider uncertainty')).toContain('wider uncertainty');
  expect(at('not measurable')).toContain('too coarse');
});

test("what the analysis doubts is said in a coach's words: a picture, a few words, what happened, what to do", () => {
  const codes = ['AXES_DOUBTFUL', 'SENSOR_SCALE_DOUBTFUL'] as const;
  const seen = codes.map((code) => {
    const where = { axes: 'z', resting_norm_mps2: 11 };
    const [finding] = findingsOf({ ...clean, faults: [{ code, message: 'technical', where, hint: 'h' }] });
    expect(finding.what).not.toContain('technical');
    expect(finding.todo).not.toBe('');
    expect(finding.short.length).toBeLessThan(40);
    return finding.picture;
  });
  expect(new Set(seen).size).toBe(codes.length);
});

test('what both sensors have is noted once, and a clean recording not at all', () => {
  const clipped = { ...clean, gyr_clipped_samples: 3 };
  expect(notesOf([clipped, { ...clipped, side: 'right', acc_clipped_samples: 2 }]).map(({ whose }) => whose)).toEqual([
    'Both sensors',
    'Right sensor',
  ]);
  expect(notesOf([clean, clean])).toEqual([]);
  // Landings beyond 16 g are everyday; they are noted where the contact time suffers.
  const verdict = { quantity: 'contact_time_ms', fitness: 'good', why: '' } as const;
  expect(notesOf([{ ...clean, acc_clipped_samples: 9, verdicts: [verdict] }])).toEqual([]);
});

test('how a sensor was worn is told first, in words of its own and once', () => {
  const checks = ['segment', 'side', 'ringing', 'turning'] as const;
  const codes = ['MOUNTING_DOUBTFUL', 'SIDES_DOUBTFUL', 'SENSOR_LOOSE', 'SENSOR_TURNED'] as const;
  const findings = findingsOf({
    ...clean,
    acc_clipped_samples: 9,
    mounting_checks: checks.map((check) => ({
      check,
      finding: 'doubtful',
      value: 50,
      value_u: null,
      limit: 12,
      unit: '1',
      strides: 20,
      why: 'seen',
    })),
    faults: codes.map((code) => ({ code, message: 'm', where: {}, hint: 'h' })),
  });
  expect(findings.map(({ picture }) => picture)).toEqual(['other-place', 'swapped', 'ringing', 'turned', 'flat-top']);
  expect(findings[0].todo).toContain('as worn on the shank');
  for (const { what, todo, short } of findings) expect(what.length * todo.length * short.length).toBeGreaterThan(0);
});

test('checks that raise no doubt are no findings, and are listed with their evidence', () => {
  const check = { check: 'side', finding: 'cannot be told', value: null, value_u: null, limit: null } as const;
  const quality: SensorQuality = {
    ...clean,
    mounting_checks: [{ ...check, unit: '1', strides: null, why: 'it takes both legs' }],
  };
  expect(findingsOf(quality).map(({ picture }) => picture)).toEqual(['even']);
  expect(wornFigures(quality)).toEqual([['left or right', 'cannot be told: it takes both legs']]);
});
