import type { LayoutCorrection } from '../../shared/schemas/layout.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import type { Evidence } from './evidence.ts';
import { type LayoutChoice, LayoutQuestion } from './layout-question.ts';
import type { Preamble } from './read-preamble.ts';
import { type NormFacts, normFacts, peakAbsolute } from './rest-norm.ts';
import type { Unit } from './units.ts';

export interface Scale {
  unit: string;
  to_si: number;
}

const G = STANDARD_GRAVITY_MPS2;
const ACC_UNITS: { unit: 'g' | 'mg' | 'm/s2'; to_si: number }[] = [
  { unit: 'g', to_si: G },
  { unit: 'm/s2', to_si: 1 },
  { unit: 'mg', to_si: G / 1000 },
];
/** Counts of 1 g that 16, 14, 12 and 10 bit sensors have at ranges from 2 to 32 g. */
const COUNTS_OF_ONE_G = [64, 128, 256, 512, 1024, 2048, 4096, 8192, 16384];
/** Median norms of a foot or shank sensor over any recording, in g: rest, walking and running all lie within. */
const LOWEST_MEDIAN_G = 0.6;
const HIGHEST_MEDIAN_G = 4.6;
/** A resting norm this near to 1 g is 1 g: sensors are off by up to a few per cent. */
const REST_TOLERANCE = 0.06;

interface Situation {
  file: string;
  /** Unit written in header, name or units row; the same for all three axes. */
  written: Unit | null;
  told: LayoutCorrection | undefined;
  preamble: Preamble;
  evidence: Evidence[];
}

/**
 * Unit of the acceleration: as told, as written (and checked against the data), or from the norm at rest and in motion.
 * @throws LayoutQuestion when more than one unit fits, or when what is written cannot be
 */
export function accelerationScale(axes: Float64Array[], situation: Situation): Scale {
  const { told, written, preamble, evidence } = situation;
  const say = (decided: string, because: string, source: Evidence['source'], to_si: number): Scale => {
    evidence.push({ about: 'acceleration unit', decided, because, source });
    return { unit: decided, to_si };
  };
  if (told?.acc_counts_per_g)
    return say('counts', `${told.acc_counts_per_g} counts a g, from the layout`, 'told', G / told.acc_counts_per_g);
  const toldUnit = ACC_UNITS.find((entry) => entry.unit === told?.acc_unit);
  if (toldUnit) return say(toldUnit.unit, 'from the layout', 'told', toldUnit.to_si);
  const facts = normFacts(axes[0], axes[1], axes[2]);
  if (written?.kind === 'acc') {
    if (facts.resting !== null && facts.resting > 0) checkWritten(facts, written, situation);
    return say(written.unit, 'written with the column', 'written', written.to_si);
  }
  const perG =
    preamble.counts_per_g ??
    (preamble.acc_range_g && preamble.acc_bits && facts.whole
      ? 2 ** (preamble.acc_bits - 1) / preamble.acc_range_g
      : null);
  if (perG) {
    const line = preamble.lines.counts_per_g ?? `${preamble.lines.acc_range_g}; ${preamble.lines.acc_bits}`;
    return say('counts', `${perG} counts a g, from "${line}"`, 'written', G / perG);
  }
  const possible = possibleAccelerations(facts, written?.unit === 'counts');
  if (possible.length === 1) return say(possible[0].unit, possible[0].because, 'measured', possible[0].to_si);
  throw new LayoutQuestion(situation.file, {
    about: 'acceleration unit',
    found: `acceleration without a unit, ${describe(facts)}`,
    choices: possible.length > 0 ? possible.map((entry) => entry.choice) : accelerationChoices(facts),
  });
}

interface Possible extends Scale {
  because: string;
  choice: LayoutChoice;
}

function possibleAccelerations(facts: NormFacts, counts: boolean): Possible[] {
  const possible: Possible[] = [];
  for (const { unit, to_si } of counts ? [] : ACC_UNITS) {
    const oneG = G / to_si;
    const fits =
      facts.resting !== null
        ? Math.abs(facts.resting / oneG - 1) < REST_TOLERANCE
        : facts.median > LOWEST_MEDIAN_G * oneG &&
          facts.median < HIGHEST_MEDIAN_G * oneG &&
          !(unit === 'mg' && facts.whole);
    if (fits)
      possible.push({ unit, to_si, because: describe(facts), choice: { label: unit, correction: { acc_unit: unit } } });
  }
  if (facts.whole && facts.resting !== null) {
    for (const oneG of COUNTS_OF_ONE_G) {
      if (Math.abs(facts.resting / oneG - 1) >= REST_TOLERANCE / 2) continue;
      const label = `counts, ${oneG} a g`;
      possible.push({
        unit: 'counts',
        to_si: G / oneG,
        because: `whole numbers with ${describe(facts)}, next to ${oneG} counts a g`,
        choice: { label, correction: { acc_counts_per_g: oneG } },
      });
    }
  }
  return possible;
}

function accelerationChoices(facts: NormFacts): LayoutChoice[] {
  if (facts.whole && facts.median > 100) {
    return [2048, 4096, 8192, 16384].map((oneG) => ({
      label: `counts, ${oneG} a g (16 bit at +-${32768 / oneG} g)`,
      correction: { acc_counts_per_g: oneG },
    }));
  }
  return ACC_UNITS.map(({ unit }) => ({ label: unit, correction: { acc_unit: unit } }));
}

function checkWritten(facts: NormFacts, written: Unit, situation: Situation): void {
  const resting = facts.resting!;
  if (Math.abs((resting * written.to_si) / G - 1) < 0.25) return;
  const better = ACC_UNITS.find((entry) => Math.abs((resting * entry.to_si) / G - 1) < REST_TOLERANCE);
  if (!better) return;
  throw new LayoutQuestion(situation.file, {
    about: 'acceleration unit',
    found: `acceleration written as ${written.unit} whose ${describe(facts)}, which would be ${((resting * written.to_si) / G).toPrecision(3)} g at rest`,
    choices: [
      { label: better.unit, correction: { acc_unit: better.unit } },
      { label: `${written.unit} as written`, correction: { acc_unit: written.unit as 'g' | 'mg' | 'm/s2' } },
    ],
  });
}

function describe(facts: NormFacts): string {
  return facts.resting !== null
    ? `norm at rest is ${facts.resting.toPrecision(4)}`
    : `median norm is ${facts.median.toPrecision(3)} (no rest in the rows looked at)`;
}

/**
 * Unit of the angular rate: as told, as written, or from its size against how hard the sensor is shaken.
 * @param accScale the acceleration's scale, already known
 * @throws LayoutQuestion when more than one unit fits
 */
export function gyroscopeScale(
  axes: Float64Array[],
  acc: Float64Array[],
  accScale: Scale,
  situation: Situation,
): Scale {
  const { told, written, preamble, evidence } = situation;
  const say = (decided: string, because: string, source: Evidence['source'], to_si: number): Scale => {
    evidence.push({ about: 'gyroscope unit', decided, because, source });
    return { unit: decided, to_si };
  };
  const units = { 'deg/s': RADIANS_PER_DEGREE, 'mdeg/s': RADIANS_PER_DEGREE / 1000, 'rad/s': 1 } as const;
  if (told?.gyr_counts_per_dps) {
    return say(
      'counts',
      `${told.gyr_counts_per_dps} counts a deg/s, from the layout`,
      'told',
      RADIANS_PER_DEGREE / told.gyr_counts_per_dps,
    );
  }
  if (told?.gyr_unit) return say(told.gyr_unit, 'from the layout', 'told', units[told.gyr_unit]);
  if (written?.kind === 'gyr') return say(written.unit, 'written with the column', 'written', written.to_si);
  const peak = peakAbsolute(axes);
  const whole = axes.every((axis) => axis.every((value) => Number.isNaN(value) || value % 1 === 0));
  const perDps =
    preamble.counts_per_dps ??
    (preamble.gyr_range_dps && preamble.acc_bits && whole
      ? 2 ** (preamble.acc_bits - 1) / preamble.gyr_range_dps
      : null);
  if (perDps) {
    const line = preamble.lines.counts_per_dps ?? `${preamble.lines.gyr_range_dps}; ${preamble.lines.acc_bits}`;
    return say('counts', `${perDps} counts a deg/s, from "${line}"`, 'written', RADIANS_PER_DEGREE / perDps);
  }
  const shaken_g = (normFacts(acc[0], acc[1], acc[2]).peak * accScale.to_si) / G;
  const facts = `peak ${peak.toPrecision(3)} while the acceleration peaks at ${shaken_g.toFixed(1)} g`;
  const counts = written?.unit === 'counts' || (whole && (accScale.unit === 'counts' || peak > 4600));
  if (!counts) {
    const hard = shaken_g > 4;
    if (peak > 75 && peak < 4600) return say('deg/s', facts, 'measured', RADIANS_PER_DEGREE);
    if (peak > 75_000) return say('mdeg/s', facts, 'measured', RADIANS_PER_DEGREE / 1000);
    if (peak > 1.5 && peak < 75 && hard)
      return say('rad/s', `${facts}: too much motion for ${peak.toFixed(0)} deg/s`, 'measured', 1);
  }
  throw new LayoutQuestion(situation.file, {
    about: 'gyroscope unit',
    found: `angular rate without a unit, ${facts}`,
    choices: counts
      ? [16.4, 32.8, 65.5, 131].map((per) => ({
          label: `counts, ${per} a deg/s (16 bit at +-${Math.round(32768 / per / 10) * 10} deg/s)`,
          correction: { gyr_counts_per_dps: per },
        }))
      : (['deg/s', 'rad/s'] as const).map((unit) => ({ label: unit, correction: { gyr_unit: unit } })),
  });
}
