import { because } from '../../../shared/reason.ts';
import { wordsOf } from '../../helpers/told.ts';
import { describe, expect, it } from 'vitest';
import { sensorSignals } from '../../../dsp/signals/sensor-signals.ts';
import { restingReadings } from '../../../dsp/quality/resting.ts';
import { type RecordingFacts, verdicts } from '../../../dsp/quality/verdicts.ts';
import { DEFAULT_SETTINGS as S } from '../../../dsp/settings/settings.ts';
import { makeRandom } from '../../../seeds/random.ts';

const good: RecordingFacts = {
  mounting: 'foot',
  sampling_rate_hz: 500,
  has_gyroscope: true,
  lost_share: 0,
  contacts: 20,
  contacts_with_clipping: 0,
  swings_clipped_share: 0,
  jitter_ms: 0.05,
  doubts: [],
  axes_doubtful: false,
};
const of = (facts: Partial<RecordingFacts>, quantity: string) =>
  verdicts({ ...good, ...facts }, S).find((verdict) => verdict.quantity === quantity);

describe('verdicts', () => {
  it('are good for a foot sensor at 500 Hz with gyroscope', () => {
    expect(verdicts(good, S).map(({ fitness }) => fitness)).toEqual(['good', 'good', 'good', 'good']);
  });

  it('25 Hz cannot give a contact time but may give a step rate', () => {
    expect(of({ sampling_rate_hz: 25 }, 'contact_time_ms')!.fitness).toBe('not measurable');
    expect(wordsOf(of({ sampling_rate_hz: 25 }, 'contact_time_ms')!.why)).toMatch(/25 samples a second/);
    expect(of({ sampling_rate_hz: 25 }, 'step_rate_hz')!.fitness).toBe('usable with wider uncertainty');
  });

  it('a gyroscope at its full scale in most swings gives no stride length; in some, a wider one', () => {
    expect(of({ swings_clipped_share: 0.8 }, 'stride_length_m')!.fitness).toBe('not measurable');
    expect(of({ swings_clipped_share: 0.51 }, 'stride_length_m')!.fitness).toBe('not measurable');
    expect(of({ swings_clipped_share: 0.5 }, 'stride_length_m')!.fitness).toBe('usable with wider uncertainty');
    expect(of({ swings_clipped_share: 0.02 }, 'stride_length_m')!.fitness).toBe('usable with wider uncertainty');
    expect(of({ swings_clipped_share: 0 }, 'stride_length_m')!.fitness).toBe('good');
  });

  it('5 % of samples lost widens, and says how many', () => {
    expect(of({ lost_share: 0.05 }, 'contact_time_ms')).toMatchObject({
      fitness: 'usable with wider uncertainty',
      why: because('samples_lost', { share: 0.05 }),
    });
  });

  it('angles need a gyroscope and a rate that gives the instants they are read at', () => {
    expect(of({ has_gyroscope: false }, 'angles')!.fitness).toBe('not measurable');
    expect(of({ sampling_rate_hz: 60 }, 'angles')!.fitness).toBe('not measurable');
    expect(of({ contacts_with_clipping: 5 }, 'angles')!.fitness).toBe('usable with wider uncertainty');
  });

  it('axes that do not belong together leave no angles and no stride length', () => {
    const all = verdicts({ ...good, axes_doubtful: true }, S);
    const fitness = (name: string) => all.find(({ quantity }) => quantity === name)?.fitness;
    expect(fitness('angles')).toBe('not measurable');
    expect(fitness('stride_length_m')).toBe('not measurable');
    expect(fitness('contact_time_ms')).toBe('usable with wider uncertainty');
    expect(fitness('step_rate_hz')).toBe('good');
  });

  it('a sensor worn on another segment gives some steps, and nothing else of what it is taken for', () => {
    const all = verdicts({ ...good, doubts: ['segment'] }, S);
    expect(all.map(({ fitness }) => fitness)).toEqual([
      'usable with wider uncertainty',
      ...Array(3).fill('not measurable'),
    ]);
    expect(wordsOf(all[1].why)).toBe('the sensor moves as one on the shank');
  });

  it('a loose sensor widens what is timed; a turned one also takes the angles; swapped sides touch toe-out alone', () => {
    const fitness = (doubts: RecordingFacts['doubts']) =>
      Object.fromEntries(verdicts({ ...good, doubts }, S).map((verdict) => [verdict.quantity, verdict.fitness]));
    const wider = 'usable with wider uncertainty';
    const loose = { step_rate_hz: 'good', contact_time_ms: wider, angles: wider, stride_length_m: wider };
    expect(fitness(['ringing'])).toEqual(loose);
    expect(fitness(['turning'])).toEqual({ ...loose, angles: 'not measurable' });
    expect(fitness(['side'])).toEqual({
      step_rate_hz: 'good',
      contact_time_ms: 'good',
      angles: wider,
      stride_length_m: 'good',
    });
  });

  it('a shank sensor is not judged for stride length', () => {
    expect(of({ mounting: 'shank' }, 'stride_length_m')).toBeUndefined();
  });
});

describe('restingReadings', () => {
  it('reads gravity, bias and noise of a sensor that lies still', () => {
    const random = makeRandom(5);
    const n = 2000;
    const noisy = (mean: number, sd: number) => Float64Array.from({ length: n }, () => random.normal(mean, sd));
    const signals = sensorSignals(
      {
        side: 'left',
        mounting: 'foot',
        clock_offset_s: 0,
        clock_drift: 0,
        clock_offset_u_s: 0,
        samples: {
          start_utc: null,
          sampling_rate_hz: 500,
          time_s: Float64Array.from({ length: n }, (_, i) => i / 500),
          acc_mps2: { x: noisy(3, 0.05), y: noisy(-4, 0.05), z: noisy(8.4, 0.05) },
          gyr_radps: { x: noisy(0.03, 0.002), y: noisy(0.04, 0.002), z: noisy(0, 0.002) },
          gaps: [],
          acc_range_mps2: null,
          gyr_range_radps: null,
        },
      },
      S,
    );
    const rest = restingReadings(signals, 0.5, 0.6)!;
    expect(rest.norm_mps2).toBeCloseTo(Math.hypot(3, 4, 8.4), 1);
    expect(rest.acc_noise_mps2).toBeGreaterThan(0.03);
    expect(rest.acc_noise_mps2).toBeLessThan(0.07);
    expect(rest.gyr_bias_radps).toBeCloseTo(0.05, 2);
  });
});
