import { because, type CodedReason } from '../../../shared/reason.ts';
import type { LayoutCorrection } from '../../../shared/schemas/layout.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import type { Evidence } from '../columns/evidence.ts';
import { type LayoutChoice, LayoutQuestion } from '../columns/layout-question.ts';
import { significant } from '../columns/significant.ts';
import type { Unit } from '../columns/units.ts';
import type { Preamble } from '../text/read-preamble.ts';
import { type NormFacts, normFacts, peakAbsolute } from './rest-norm.ts';

export interface Scale {
  unit: string;
  to_si: number;
}

const G = STANDARD_GRAVITY_MPS2;
const ACC_UNITS: { unit: 'g' | 'mg' | 'ug' | 'm/s2'; to_si: number }[] = [
  { unit: 'g', to_si: G },
  { unit: 'm/s2', to_si: 1 },
  { unit: 'mg', to_si: G / 1000 },
  { unit: 'ug', to_si: G / 1e6 },
];
/** Counts of 1 g that 16, 14, 12 and 10 bit sensors have at ranges from 2 to 32 g. */
const COUNTS_OF_ONE_G = [64, 128, 256, 512, 1024, 2048, 4096, 8192, 16384];
/** A resting norm this near to 1 g is 1 g: sensors are off by up to a few per cent. */
const REST_TOLERANCE = 0.06;
/** Gravity from motion is good to this (0.98 to 1.09 g on treadmill runs of five runners). */
const GRAVITY_TOLERANCE = 0.3;
/** Feet stand, also in a walk: where this share of the rows lies at 1 g, that is 1 g. */
const STANDING_SHARE = 0.2;
/** Median norm of a foot that never rests, in g: a slow jog to a run. A sprint lies higher and is not told from m/s2 by this. */
const MOVING_MEDIAN_G = [1.3, 7];

export interface Situation {
  file: string;
  /** Unit written in header, name or units row; the same for all three axes. */
  written: Unit | null;
  told: LayoutCorrection | undefined;
  preamble: Preamble;
  evidence: Evidence[];
  /** 1 g in the unit of the column, from the motion itself; null where it cannot be told. */
  gravity: number | null;
}

/**
 * Unit of the acceleration: as told, as written (and checked against the data), or from the norm at rest and in motion.
 * @throws LayoutQuestion when more than one unit fits, or when what is written cannot be
 */
export function accelerationScale(axes: Float64Array[], situation: Situation): Scale {
  const { told, written, preamble, evidence } = situation;
  const say = (unit: string, why: CodedReason, source: Evidence['source'], to_si: number): Scale => {
    evidence.push({ about: 'acceleration unit', decided: because('took_unit', { unit }), because: why, source });
    return { unit, to_si };
  };
  if (told?.acc_counts_per_g) {
    const counts = told.acc_counts_per_g;
    return say('counts', because('by_counts_of_layout', { counts, unit: 'g' }), 'told', G / counts);
  }
  const toldUnit = ACC_UNITS.find((entry) => entry.unit === told?.acc_unit);
  if (toldUnit) return say(toldUnit.unit, because('by_layout'), 'told', toldUnit.to_si);
  const facts = normFacts(axes[0], axes[1], axes[2]);
  if (written?.kind === 'acc') {
    checkWritten(facts, written, situation);
    return say(written.unit, because('by_column'), 'written', written.to_si);
  }
  const perG =
    preamble.counts_per_g ??
    (preamble.acc_range_g && preamble.acc_bits && facts.whole
      ? 2 ** (preamble.acc_bits - 1) / preamble.acc_range_g
      : null);
  if (perG) {
    checkCounts(facts, perG, situation);
    const line = preamble.lines.counts_per_g ?? `${preamble.lines.acc_range_g}; ${preamble.lines.acc_bits}`;
    return say('counts', because('by_counts_of_line', { counts: perG, unit: 'g', line }), 'written', G / perG);
  }
  const possible = possibleAccelerations(facts, situation.gravity, written?.unit === 'counts');
  if (possible.length === 1) return say(possible[0].unit, possible[0].because, 'measured', possible[0].to_si);
  throw new LayoutQuestion(situation.file, {
    about: 'acceleration unit',
    found: because('found_acceleration_without_unit', { facts: normReason(facts, situation.gravity) }),
    choices: possible.length > 0 ? possible.map((entry) => entry.choice) : accelerationChoices(facts),
  });
}

interface Possible extends Scale {
  because: CodedReason;
  choice: LayoutChoice;
}

function possibleAccelerations(facts: NormFacts, gravity: number | null, counts: boolean): Possible[] {
  const possible: Possible[] = [];
  const why = normReason(facts, gravity);
  const measured = facts.resting ?? gravity;
  const tolerance = facts.resting !== null ? REST_TOLERANCE : GRAVITY_TOLERANCE;
  const standing = ACC_UNITS.filter(({ to_si }) => facts.shareNear(G / to_si) > STANDING_SHARE);
  for (const { unit, to_si } of counts ? [] : ACC_UNITS) {
    const oneG = G / to_si;
    const norm = facts.median / oneG;
    const moving = norm > MOVING_MEDIAN_G[0] && norm < MOVING_MEDIAN_G[1];
    const fits =
      measured !== null
        ? Math.abs(measured / oneG - 1) < tolerance
        : !((unit === 'mg' || unit === 'ug') && facts.whole) &&
          (standing.length === 1 ? standing[0].unit === unit : moving);
    if (fits)
      possible.push({
        unit,
        to_si,
        because: why,
        choice: { label: because('choice_unit', { unit }), correction: { acc_unit: unit } },
      });
  }
  if (!facts.whole || measured === null) return possible;
  for (const oneG of COUNTS_OF_ONE_G) {
    if (Math.abs(measured / oneG - 1) >= tolerance / 2) continue;
    possible.push({
      unit: 'counts',
      to_si: G / oneG,
      because: because('by_whole_numbers', { facts: why, counts: oneG }),
      choice: { label: because('choice_counts_g', { counts: oneG }), correction: { acc_counts_per_g: oneG } },
    });
  }
  return possible;
}

function accelerationChoices(facts: NormFacts): LayoutChoice[] {
  // No 16 bit sensor counts so far.
  if (facts.whole && facts.median > 2 * MOST_COUNTS)
    return (['ug', 'mg'] as const).map((unit) => ({
      label: because('choice_unit', { unit }),
      correction: { acc_unit: unit },
    }));
  if (facts.whole && facts.median > 100) {
    return [2048, 4096, 8192, 16384].map((oneG) => ({
      label: because('choice_counts_g_of_range', { counts: oneG, range: 32768 / oneG }),
      correction: { acc_counts_per_g: oneG },
    }));
  }
  return ACC_UNITS.map(({ unit }) => ({ label: because('choice_unit', { unit }), correction: { acc_unit: unit } }));
}

function checkWritten(facts: NormFacts, written: Unit, situation: Situation): void {
  const resting = facts.resting ?? situation.gravity;
  if (resting === null || !(resting > 0)) return;
  const [limit, tolerance] = facts.resting === null ? [0.6, GRAVITY_TOLERANCE] : [0.25, REST_TOLERANCE];
  if (Math.abs((resting * written.to_si) / G - 1) < limit) return;
  const better = ACC_UNITS.find((entry) => Math.abs((resting * entry.to_si) / G - 1) < tolerance);
  if (!better) return;
  throw new LayoutQuestion(situation.file, {
    about: 'acceleration unit',
    found: because('found_acceleration_misfit', {
      written: written.unit,
      facts: normReason(facts, situation.gravity),
      g: significant((resting * written.to_si) / G, 3),
    }),
    choices: [
      { label: because('choice_unit', { unit: better.unit }), correction: { acc_unit: better.unit } },
      {
        label: because('choice_as_written', { unit: written.unit }),
        correction: { acc_unit: written.unit as 'g' | 'mg' | 'm/s2' },
      },
    ],
  });
}

/** Counts that cannot be at rest: unsigned where they should carry a sign, or about a middle that is not zero. */
function checkCounts(facts: NormFacts, per_g: number, { file }: Situation): void {
  if (facts.resting === null || Math.abs(facts.resting / per_g - 1) < 0.25) return;
  throw new LayoutQuestion(file, {
    about: 'acceleration unit',
    found: because('found_counts_misfit', {
      per_g,
      facts: normReason(facts, null),
      g: significant(facts.resting / per_g, 3),
    }),
    choices: possibleAccelerations(facts, null, true).map(({ choice }) => choice),
    hint: because('do_export_signed'),
  });
}

/** What speaks for a unit: the norm at rest, else in motion. */
function normReason(facts: NormFacts, gravity: number | null): CodedReason {
  if (facts.resting !== null) return because('norm_at_rest', { norm: significant(facts.resting, 4) });
  if (gravity !== null) return because('mean_turned', { norm: significant(gravity, 3) });
  return because('median_norm', { norm: significant(facts.median, 3) });
}

const GYR_UNITS = { 'deg/s': RADIANS_PER_DEGREE, 'mdeg/s': RADIANS_PER_DEGREE / 1000, 'rad/s': 1 } as const;
/** Beyond every sensor's range in rad/s, and reached in deg/s as soon as a foot moves. */
const NO_RADIANS = 75;
/** Beyond every sensor's range in deg/s. */
const NO_DEGREES = 4600;
/** No 16 bit sensor counts further. */
const MOST_COUNTS = 32_768;

/** The angular rate's likely scale, before the acceleration's is known; null where it may be counts. */
export function likelyGyroscopeScale(axes: Float64Array[], situation: Situation): number | null {
  const { told, written } = situation;
  if (told?.gyr_counts_per_dps) return RADIANS_PER_DEGREE / told.gyr_counts_per_dps;
  if (told?.gyr_unit) return GYR_UNITS[told.gyr_unit];
  if (written?.kind === 'gyr') {
    const peak = peakAbsolute(axes);
    if (written.unit === 'rad/s' && peak > 2 * NO_RADIANS) throw writtenRadians(situation.file, peak);
    return written.to_si;
  }
  const perDps = countsPerDps(axes, situation.preamble);
  if (perDps) return RADIANS_PER_DEGREE / perDps;
  const peak = peakAbsolute(axes);
  if (written?.unit === 'counts' || (allWhole(axes) && peak > NO_DEGREES && peak <= MOST_COUNTS)) return null;
  return peak > NO_DEGREES ? RADIANS_PER_DEGREE / 1000 : peak > NO_RADIANS ? RADIANS_PER_DEGREE : 1;
}

function countsPerDps(axes: Float64Array[], preamble: Preamble): number | null {
  if (preamble.counts_per_dps) return preamble.counts_per_dps;
  const { gyr_range_dps, acc_bits } = preamble;
  return gyr_range_dps && acc_bits && allWhole(axes) ? 2 ** (acc_bits - 1) / gyr_range_dps : null;
}

function allWhole(axes: Float64Array[]): boolean {
  return axes.every((axis) => axis.every((value) => Number.isNaN(value) || value % 1 === 0));
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
  const say = (unit: string, why: CodedReason, source: Evidence['source'], to_si: number): Scale => {
    evidence.push({ about: 'gyroscope unit', decided: because('took_unit', { unit }), because: why, source });
    return { unit, to_si };
  };
  if (told?.gyr_counts_per_dps) {
    const counts = told.gyr_counts_per_dps;
    return say(
      'counts',
      because('by_counts_of_layout', { counts, unit: 'deg/s' }),
      'told',
      RADIANS_PER_DEGREE / counts,
    );
  }
  if (told?.gyr_unit) return say(told.gyr_unit, because('by_layout'), 'told', GYR_UNITS[told.gyr_unit]);
  const peak = peakAbsolute(axes);
  if (written?.kind === 'gyr') {
    return say(written.unit, because('by_column'), 'written', written.to_si);
  }
  const perDps = countsPerDps(axes, preamble);
  if (perDps) {
    const line = preamble.lines.counts_per_dps ?? `${preamble.lines.gyr_range_dps}; ${preamble.lines.acc_bits}`;
    const why = because('by_counts_of_line', { counts: perDps, unit: 'deg/s', line });
    return say('counts', why, 'written', RADIANS_PER_DEGREE / perDps);
  }
  const shaken_g = (normFacts(acc[0], acc[1], acc[2]).peak * accScale.to_si) / G;
  const facts = because('peak_beside_shake', { peak: significant(peak, 3), g: shaken_g });
  const counts =
    written?.unit === 'counts' ||
    (allWhole(axes) && (accScale.unit === 'counts' || (peak > NO_DEGREES && peak <= MOST_COUNTS)));
  if (!counts) {
    const hard = shaken_g > 4;
    if (peak > NO_RADIANS && peak < NO_DEGREES) return say('deg/s', facts, 'measured', RADIANS_PER_DEGREE);
    if (peak > 1000 * NO_RADIANS) return say('mdeg/s', facts, 'measured', RADIANS_PER_DEGREE / 1000);
    if (peak > 1.5 && peak < NO_RADIANS && hard) {
      return say('rad/s', because('by_too_much_for_degrees', { facts, dps: peak }), 'measured', 1);
    }
  }
  throw new LayoutQuestion(situation.file, {
    about: 'gyroscope unit',
    found: because('found_rate_without_unit', { facts }),
    choices: rateChoices(peak, counts, written?.unit === 'counts'),
  });
}

function rateChoices(peak: number, counts: boolean, namedCounts: boolean): LayoutChoice[] {
  const units = peak > NO_DEGREES ? (['mdeg/s'] as const) : (['deg/s', 'rad/s'] as const);
  const named = units.map((unit) => ({ label: because('choice_unit', { unit }), correction: { gyr_unit: unit } }));
  if (!counts) return named;
  const counted = [16.4, 32.8, 65.5, 131].map((per) => ({
    label: because('choice_counts_dps', { counts: per, range: Math.round(MOST_COUNTS / per / 10) * 10 }),
    correction: { gyr_counts_per_dps: per },
  }));
  return namedCounts || peak <= NO_DEGREES ? counted : [...counted, ...named];
}

function writtenRadians(file: string, peak: number): LayoutQuestion {
  return new LayoutQuestion(file, {
    about: 'gyroscope unit',
    found: because('found_radians_too_many', { peak: significant(peak, 3) }),
    choices: [{ label: because('choice_unit', { unit: 'deg/s' }), correction: { gyr_unit: 'deg/s' } }],
  });
}
