import { wordsOf } from '../../helpers/told.ts';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../../dsp/analyse.ts';
import { sensorSignals } from '../../../dsp/signals/sensor-signals.ts';
import { axisFaults } from '../../../dsp/quality/axes.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { generateRepetition } from '../../../seeds/generate-repetition.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { SampleBlock, SensorRecording } from '../../../shared/sample-block.ts';
import type { Mounting } from '../../../shared/words.ts';

const made = generateRepetition({
  seed: 31,
  steady: { speed_mps: 5, duration_s: 8 },
  sensor: { rate_hz: 400 },
  internal_rate_hz: 2000,
});

const negative = (c: Float64Array) => c.map((v) => -v);

function faultsOf(mounting: Mounting, change: (block: SampleBlock) => SampleBlock) {
  const recording: SensorRecording = {
    side: 'left',
    mounting,
    samples: change(made.sensors[mounting].left),
    clock_offset_s: 0,
    clock_drift: 0,
    clock_offset_u_s: 0,
  };
  return axisFaults(recording, sensorSignals(recording, DEFAULT_SETTINGS), DEFAULT_SETTINGS);
}

describe.each(['foot', 'shank'] as const)('axes of a %s sensor', (mounting) => {
  it('that belong together raise no doubt, however the sensor is turned', () => {
    expect(faultsOf(mounting, (block) => block)).toEqual([]);
    const turn = ({ x, y, z }: SampleBlock['acc_mps2']) => ({ x: y, y: z, z: x });
    expect(faultsOf(mounting, (b) => ({ ...b, acc_mps2: turn(b.acc_mps2), gyr_radps: turn(b.gyr_radps!) }))).toEqual(
      [],
    );
  });

  it('of which the rotation is reversed are told', () => {
    const reversed = (b: SampleBlock): SampleBlock => {
      const { x, y, z } = b.gyr_radps!;
      return { ...b, gyr_radps: { x: negative(x), y: negative(y), z: negative(z) } };
    };
    const [fault] = faultsOf(mounting, reversed);
    expect(fault).toMatchObject({ code: 'AXES_DOUBTFUL', where: { side: 'left', mounting } });
    expect(Number(fault.where.gravity_g)).toBeGreaterThan(1.14);
  });

  it('are not judged without a gyroscope', () => {
    expect(faultsOf(mounting, (block) => ({ ...block, gyr_radps: null, gyr_range_radps: null }))).toEqual([]);
  });
});

describe('a foot sensor whose rotation is reversed', () => {
  it('gives neither angles nor stride lengths, and says why', () => {
    const { x, y, z } = made.sensors.foot.left.gyr_radps!;
    const samples = { ...made.sensors.foot.left, gyr_radps: { x: negative(x), y: negative(y), z: negative(z) } };
    const sensor = { side: 'left' as const, mounting: 'foot' as const, samples };
    const clock = { clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0 };
    const { repetitions } = analyse({
      sensors: [{ ...sensor, ...clock }],
      course: UNKNOWN_COURSE,
      conditions: UNKNOWN_CONDITIONS,
    });
    expect(repetitions.length).toBe(1);
    const [{ contacts, reasons }] = repetitions;
    expect(contacts.length).toBeGreaterThan(5);
    for (const { foot_pitch_touchdown_deg, stride_length_m, contact_time_ms } of contacts) {
      expect(foot_pitch_touchdown_deg).toBeNull();
      expect(stride_length_m).toBeNull();
      expect(contact_time_ms).not.toBeUndefined();
    }
    expect(wordsOf(reasons.foot_pitch_touchdown_deg)).toContain('do not belong together');
  });
});

describe('axes of a short sprint', () => {
  it('raise no doubt, though the windows hold no whole strides and the athlete speeds up', () => {
    for (const seed of [504, 507, 514]) {
      const { foot } = generateRepetition({
        seed,
        mountings: ['foot'],
        sensor: { rate_hz: 400 },
        internal_rate_hz: 2000,
        repetitions: [{ distance_m: 30, effort: 0.75 }],
      }).sensors;
      for (const side of ['left', 'right'] as const) {
        const recording: SensorRecording = {
          side,
          mounting: 'foot',
          samples: foot[side],
          clock_offset_s: 0,
          clock_drift: 0,
          clock_offset_u_s: 0,
        };
        expect(axisFaults(recording, sensorSignals(recording, DEFAULT_SETTINGS), DEFAULT_SETTINGS)).toEqual([]);
      }
    }
  });
});
