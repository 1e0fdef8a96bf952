import type { Analysis, SensorQuality } from '../../shared/analysis.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';
import { because, type Reason } from '../../shared/reason.ts';
import type { ReadingCheck } from '../../shared/schemas/layout-preview.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';

/** How far from 1 g a sensor at rest may read: real ones are off by a few per cent. */
const REST_TOLERANCE = 0.06;
/** Below this nothing runs; above it no worn sensor reaches (common practice: ranges end at 16 to 200 g). */
const ACC_PEAK_G = [1.5, 205];
/** A swinging leg turns at some 300 to 2000 deg/s; sensors end at 2000 to 4000 deg/s. */
const GYR_PEAK_DPS = [100, 4600];
/** Enough samples within a contact of 0.1 s (common practice). */
const GOOD_RATE_HZ = 200;
const USABLE_RATE_HZ = 80;

/**
 * The figures by which a person sees whether a sensor was read rightly: rate, gravity at rest, how hard it was shaken and
 * turned, whether its axes belong together, and what was found in it.
 * @param recording one sensor as it was read
 * @param analysis what the analysis made of it alone
 */
export function checkReading(recording: SensorRecording, analysis: Analysis): ReadingCheck[] {
  const [quality] = analysis.quality;
  return [rate(quality), rest(quality), shaken(recording), turned(recording), ...axes(quality), running(analysis)];
}

function check(
  about: ReadingCheck['about'],
  found: Reason,
  verdict: ReadingCheck['verdict'],
  why: Reason,
): ReadingCheck {
  return { about, found, verdict, why, turn: [] };
}

function rate({ sampling_rate_hz, duration_s, lost_samples }: SensorQuality): ReadingCheck {
  const found = because('read_rate', { rate_hz: sampling_rate_hz, duration_s, lost: lost_samples });
  if (sampling_rate_hz >= GOOD_RATE_HZ) return check('rate', found, 'plausible', because('read_rate_good'));
  const usable = sampling_rate_hz >= USABLE_RATE_HZ;
  return check('rate', found, 'doubtful', usable ? because('read_rate_usable') : because('read_rate_low'));
}

function rest({ resting_norm_mps2: norm }: SensorQuality): ReadingCheck {
  if (norm === null) {
    return check('at rest', because('read_never_still'), 'plausible', because('read_would_rest'));
  }
  const g = norm / STANDARD_GRAVITY_MPS2;
  const found = because('read_rest', { g });
  if (Math.abs(g - 1) <= REST_TOLERANCE) return check('at rest', found, 'plausible', because('read_gravity'));
  const verdict = g < 0.5 || g > 2 ? 'impossible' : 'doubtful';
  return check('at rest', found, verdict, because('read_no_gravity'));
}

function shaken({ samples }: SensorRecording): ReadingCheck {
  const g = peak(samples.acc_mps2) / STANDARD_GRAVITY_MPS2;
  return within('hardest shake', g, ACC_PEAK_G, because('read_shake', { g }), {
    plausible: because('read_shake_plausible'),
    doubtful: because('read_shake_doubtful'),
    impossible: because('read_shake_impossible'),
  });
}

function turned({ samples }: SensorRecording): ReadingCheck {
  if (!samples.gyr_radps) {
    return check('rotation', because('read_no_rotation'), 'doubtful', because('read_without_rotation'));
  }
  const dps = peak(samples.gyr_radps) / RADIANS_PER_DEGREE;
  return within('fastest turn', dps, GYR_PEAK_DPS, because('read_turn', { dps }), {
    plausible: because('read_turn_plausible'),
    doubtful: because('read_turn_doubtful'),
    impossible: because('read_turn_impossible'),
  });
}

/** A peak that is plausible between two bounds, doubtful below and impossible above. */
function within(
  about: ReadingCheck['about'],
  value: number,
  [least, most]: readonly number[],
  found: Reason,
  why: Record<ReadingCheck['verdict'], Reason>,
): ReadingCheck {
  const verdict = value > most ? 'impossible' : value < least ? 'doubtful' : 'plausible';
  return check(about, found, verdict, why[verdict]);
}

function axes({ faults }: SensorQuality): ReadingCheck[] {
  const fault = faults.find(({ code }) => code === 'AXES_DOUBTFUL');
  if (!fault) return [];
  const turn = String(fault.where.axes ?? '')
    .split(', ')
    .filter((axis): axis is 'x' | 'y' | 'z' => ['x', 'y', 'z'].includes(axis));
  const found = because('read_turned_round', { axes: turn });
  return [{ ...check('axes', found, 'doubtful', because('read_turn_its_sign')), turn }];
}

function running({ repetitions, other_activity }: Analysis): ReadingCheck {
  const contacts = repetitions.flatMap((repetition) => repetition.contacts);
  if (contacts.length === 0) {
    const seen = [...new Set(other_activity.map(({ kind }) => kind))];
    return check('running', because('read_no_running', { seen }), 'doubtful', because('read_look_above'));
  }
  const times = contacts
    .map((contact) => contact.contact_time_ms)
    .filter((ms) => ms !== null)
    .sort((a, b) => a - b);
  const found = because('read_contacts', {
    contacts: contacts.length,
    middle_ms: times.length > 0 ? times[times.length >> 1] : null,
  });
  return check('running', found, 'plausible', because('read_usual_contacts'));
}

/** Greatest norm that is no single stray sample: the 99.9th percentile. */
function peak({ x, y, z }: { x: Float64Array; y: Float64Array; z: Float64Array }): number {
  const norms = x
    .map((value, i) => Math.hypot(value, y[i], z[i]))
    .filter((norm) => !Number.isNaN(norm))
    .sort();
  return norms.length === 0 ? 0 : norms[Math.min(norms.length - 1, Math.floor(0.999 * norms.length))];
}
