import { told, wordsOf } from '../../helpers/told.ts';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../../dsp/analyse.ts';
import { generateOtherActivity, OTHER_ACTIVITIES } from '../../../seeds/generate-other-activity.ts';
import { generateRepetition } from '../../../seeds/generate-repetition.ts';
import type { SensorModel } from '../../../seeds/sensor/sensor-model.ts';
import { type SensorQuality, UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';
import type { Mounting, MountingCheckName } from '../../../shared/words.ts';
import { turningSensor } from '../../helpers/turning-sensor.ts';
import { pairOfSensors } from '../../outside-checks/validation/validation-case.ts';

type Blocks = { left: SampleBlock; right: SampleBlock };

function made(seed: number, sensor: Partial<SensorModel> = {}) {
  return generateRepetition({
    seed,
    // Feet that roll as much as those of real runners do (a simulated runner draws 0.5 to 1.4).
    runner: { looseness: 1.3 },
    repetitions: [{ distance_m: 60 }],
    sensor: { rate_hz: 500, ...sensor },
    internal_rate_hz: 2000,
  }).sensors;
}

const firm = made(61);

function qualityOf(mounting: Mounting, blocks: Blocks): SensorQuality[] {
  const sensors = pairOfSensors(mounting, blocks);
  return analyse({ sensors, course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS }).quality;
}

const findings = (quality: SensorQuality[], check: MountingCheckName) =>
  quality.map(({ mounting_checks }) => mounting_checks!.find((one) => one.check === check)!.finding);
const codes = (quality: SensorQuality[]) => quality.map(({ faults }) => faults.map(({ code }) => code));

describe.each(['foot', 'shank'] as const)('a firm sensor on the %s', (mounting) => {
  const quality = qualityOf(mounting, firm[mounting]);

  it('raises no doubt', () => {
    expect(codes(quality)).toEqual([[], []]);
    expect(findings(quality, 'segment')).toEqual(['as expected', 'as expected']);
    expect(findings(quality, 'ringing')).toEqual(['as expected', 'as expected']);
    expect(findings(quality, 'turning')).toEqual(['as expected', 'as expected']);
  });

  it('gives the number that decides, its uncertainty, the limit and the strides behind it', () => {
    const segment = quality[0].mounting_checks!.find(({ check }) => check === 'segment')!;
    expect(segment.value_u).toBeGreaterThan(0);
    expect(segment.strides).toBeGreaterThan(8);
    expect(segment.limit).not.toBeNull();
  });

  it('said to be on the other segment gives no contact time, and says why in every row', () => {
    const other = mounting === 'foot' ? 'shank' : 'foot';
    const sensors = pairOfSensors(other, firm[mounting]);
    const { repetitions } = analyse({ sensors, course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS });
    const rows = repetitions.flatMap(({ contacts }) => contacts);
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) {
      expect([row.toe_off_s, row.contact_time_ms, row.flight_time_ms, row.duty_factor]).toEqual(Array(4).fill(null));
      expect(wordsOf(row.reasons.contact_time_ms)).toContain(`as one on the ${mounting}`);
    }
  });

  it('said to be on the other segment is told, with what to do', () => {
    const other = mounting === 'foot' ? 'shank' : 'foot';
    const wrong = qualityOf(other, firm[mounting]);
    expect(codes(wrong)).toEqual([['MOUNTING_DOUBTFUL'], ['MOUNTING_DOUBTFUL']]);
    expect(told(wrong[0].faults[0]).hint).toContain(`'${mounting}'`);
    expect(wrong[0].verdicts.find(({ quantity }) => quantity === 'contact_time_ms')!.fitness).toBe('not measurable');
    expect(findings(wrong, 'side')).toEqual(['cannot be told', 'cannot be told']);
  });

  it.each([
    ['at once', (share: number) => (share > 0.5 ? 35 : 0)],
    ['little by little', (share: number) => 60 * share],
  ])('that turns on the leg %s is told of', (words, angle) => {
    const { left, right } = firm[mounting];
    const quality = qualityOf(mounting, { left: turningSensor(left, angle), right });
    expect(codes(quality)).toEqual([['SENSOR_TURNED'], []]);
    expect(told(quality[0].faults[0]).message).toContain(words === 'at once' ? ', at ' : words);
    expect(quality[0].verdicts.find(({ quantity }) => quantity === 'angles')!.fitness).toBe('not measurable');
  });

  it('without a gyroscope can be judged for ringing alone', () => {
    const mute = (block: SampleBlock): SampleBlock => ({ ...block, gyr_radps: null, gyr_range_radps: null });
    const quality = qualityOf(mounting, { left: mute(firm[mounting].left), right: mute(firm[mounting].right) });
    for (const check of ['segment', 'side', 'turning'] as const) {
      expect(findings(quality, check)).toEqual(['cannot be told', 'cannot be told']);
    }
  });
});

describe('a sensor on a loose strap', () => {
  // Resonance of 28 Hz, damping ratio 0.15; firm straps: 35 to 110 Hz, 0.2 to 0.5.
  const loose = made(602, { strap_hz: 28, strap_damping: 0.15 });

  it.each(['foot', 'shank'] as const)('rings after landings, %s', (mounting) => {
    const quality = qualityOf(mounting, loose[mounting]);
    expect(codes(quality)).toEqual([['SENSOR_LOOSE'], ['SENSOR_LOOSE']]);
    expect(told(quality[0].faults[0]).message).toMatch(/rings at 2[5-9] Hz/);
    expect(quality[0].verdicts.find(({ quantity }) => quantity === 'contact_time_ms')!.fitness).toBe(
      'usable with wider uncertainty',
    );
  });

  it("that is so soft that its ringing drowns in the leg's motion follows the leg no longer", () => {
    const quality = qualityOf('foot', made(602, { strap_hz: 15, strap_damping: 0.15 }).foot);
    expect(codes(quality)).toEqual([['SENSOR_LOOSE'], ['SENSOR_LOOSE']]);
    expect(told(quality[0].faults[0]).message).toContain('breaks off');
  });
});

describe('left and right', () => {
  it('are as stated, or told to be swapped, by foot sensors of a runner whose feet roll as feet do', () => {
    const { left, right } = firm.foot;
    expect(findings(qualityOf('foot', { left, right }), 'side')).toEqual(['as expected', 'as expected']);
    const swapped = qualityOf('foot', { left: right, right: left });
    expect(codes(swapped)).toEqual([['SIDES_DOUBTFUL'], ['SIDES_DOUBTFUL']]);
    expect(told(swapped[0].faults[0]).hint).toMatch(/^Swap the two files/);
  });

  it('cannot be told from one leg alone', () => {
    const [left] = pairOfSensors('foot', firm.foot);
    const { quality } = analyse({ sensors: [left], course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS });
    expect(findings(quality, 'side')).toEqual(['cannot be told']);
  });
});

it('nothing is said about standing, walking, jumps, hops and falls', () => {
  for (const kind of OTHER_ACTIVITIES) {
    const { sensors } = generateOtherActivity(kind, 3, { rate_hz: 200 });
    for (const mounting of ['foot', 'shank'] as const) {
      expect(codes(qualityOf(mounting, sensors[mounting])), `${kind}, ${mounting}`).toEqual([[], []]);
    }
  }
});
