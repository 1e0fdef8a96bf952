import type { Analysis, SensorQuality } from '../../shared/analysis.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';
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

function check(about: string, found: string, verdict: ReadingCheck['verdict'], why: string): ReadingCheck {
  return { about, found, verdict, why, turn: [] };
}

function rate({ sampling_rate_hz, duration_s, lost_samples }: SensorQuality): ReadingCheck {
  const lost = lost_samples > 0 ? `, ${lost_samples} lost` : '';
  const found = `${sampling_rate_hz.toFixed(sampling_rate_hz < 100 ? 1 : 0)} samples a second over ${duration_s.toFixed(1)} s${lost}`;
  if (sampling_rate_hz >= GOOD_RATE_HZ) return check('rate', found, 'plausible', 'enough for contact times');
  const why =
    sampling_rate_hz >= USABLE_RATE_HZ
      ? 'contact times will be less certain than from 200 a second; right if the sensor is set so, else look at the unit of time'
      : 'too few for contact times; if the sensor records faster, look at the unit of time';
  return check('rate', found, 'doubtful', why);
}

function rest({ resting_norm_mps2: norm }: SensorQuality): ReadingCheck {
  if (norm === null) {
    return check('at rest', 'never still in this part', 'plausible', 'a second of standing would show 1.00 g here');
  }
  const g = norm / STANDARD_GRAVITY_MPS2;
  const found = `${g.toFixed(2)} g`;
  if (Math.abs(g - 1) <= REST_TOLERANCE) return check('at rest', found, 'plausible', 'gravity: the scale is right');
  const verdict = g < 0.5 || g > 2 ? 'impossible' : 'doubtful';
  return check('at rest', found, verdict, 'a still sensor reads 1.00 g: look at unit and columns of acceleration');
}

function shaken({ samples }: SensorRecording): ReadingCheck {
  const g = peak(samples.acc_mps2) / STANDARD_GRAVITY_MPS2;
  return within('hardest shake', g, ACC_PEAK_G, `${g.toFixed(1)} g`, {
    plausible: 'running shakes a shoe or shank by some 5 to 30 g',
    doubtful: 'hardly any motion: right for a rest, else look at the unit of acceleration',
    impossible: 'no worn sensor reaches this: look at the unit of acceleration',
  });
}

function turned({ samples }: SensorRecording): ReadingCheck {
  if (!samples.gyr_radps) {
    const why = 'contact times without rotation are less certain; fit columns where there are some';
    return check('rotation', 'none', 'doubtful', why);
  }
  const dps = peak(samples.gyr_radps) / RADIANS_PER_DEGREE;
  return within('fastest turn', dps, GYR_PEAK_DPS, `${dps.toFixed(0)} deg/s`, {
    plausible: 'a swinging leg turns at some 300 to 2000 deg/s',
    doubtful: 'too slow for a leg that runs: right for a rest, else look at the unit of rotation',
    impossible: 'beyond every sensor: look at the unit of rotation',
  });
}

/** A peak that is plausible between two bounds, doubtful below and impossible above. */
function within(
  about: string,
  value: number,
  [least, most]: readonly number[],
  found: string,
  why: Record<ReadingCheck['verdict'], string>,
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
  return [
    {
      about: 'axes',
      found: `rotation about ${turn.join(', ')} seems turned round`,
      verdict: 'doubtful',
      why: 'acceleration and rotation fit each other only with it turned: turn its sign',
      turn,
    },
  ];
}

function running({ repetitions, other_activity }: Analysis): ReadingCheck {
  const contacts = repetitions.flatMap((repetition) => repetition.contacts);
  if (contacts.length === 0) {
    const seen = [...new Set(other_activity.map(({ kind }) => kind))].join(', ');
    return check(
      'running',
      `none found${seen ? ` (${seen})` : ''}`,
      'doubtful',
      'where there was running, something above is read wrongly',
    );
  }
  const times = contacts
    .map((contact) => contact.contact_time_ms)
    .filter((ms) => ms !== null)
    .sort((a, b) => a - b);
  const middle = times.length > 0 ? `, half of them below ${times[times.length >> 1].toFixed(0)} ms` : '';
  return check(
    'running',
    `${contacts.length} contacts of this foot${middle}`,
    'plausible',
    'sprinters stay down 80 to 130 ms, joggers 200 to 300 ms',
  );
}

/** Greatest norm that is no single stray sample: the 99.9th percentile. */
function peak({ x, y, z }: { x: Float64Array; y: Float64Array; z: Float64Array }): number {
  const norms = x
    .map((value, i) => Math.hypot(value, y[i], z[i]))
    .filter((norm) => !Number.isNaN(norm))
    .sort();
  return norms.length === 0 ? 0 : norms[Math.min(norms.length - 1, Math.floor(0.999 * norms.length))];
}
