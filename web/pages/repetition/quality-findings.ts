import type { SensorQuality } from '../../../shared/analysis.ts';
import type { Fault } from '../../../shared/fault.ts';
import { speech } from '../../app/language.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { count } from '../../app/describe.ts';
import type { Finding } from './finding.ts';
import { WORN_FAULTS, wornFindings } from './worn-findings.ts';

export const ACCELERATION_CLIPPED = 'acceleration beyond its range';

/** Rate from which on contact times are comfortably good; whether they can be had at all is the analysis' verdict. */
const COMFORTABLE_HZ = 200;
/** Time stamps that scatter by more than this share of an interval are told of (the limit of the analysis' own verdict). */
const JITTER_INTERVALS = 0.5;

/** What happened to one sensor's recording and what to do about it, worst first; one 'even' finding when all is well. */
export function findingsOf(quality: SensorQuality): Finding[] {
  const findings: Finding[] = wornFindings(quality);
  const rate = `${quality.sampling_rate_hz.toFixed(0)} samples a second`;
  // What the checks of how it was worn found is told by them.
  for (const fault of quality.faults) if (!WORN_FAULTS.includes(fault.code)) findings.push(ofFault(fault));
  if (quality.sampling_rate_hz < COMFORTABLE_HZ) {
    const verdict = quality.verdicts.find((one) => one.quantity === 'contact_time_ms');
    const lost = verdict?.fitness === 'not measurable';
    findings.push({
      picture: 'coarse',
      short: `only ${rate}`,
      what: lost ? `Only ${rate}: too coarse for contact times.` : `${rate}: contact times carry a wider uncertainty.`,
      todo: 'Set the sensor to 200 a second or more where it can.',
    });
  }
  if (quality.gaps.length > 0) {
    const longest = Math.max(...quality.gaps.map((gap) => gap.end_s - gap.start_s));
    const lost = quality.lost_samples > 0 ? `, ${count(quality.lost_samples, 'sample')} lost` : '';
    findings.push({
      picture: 'gap',
      short: count(quality.gaps.length, 'gap'),
      what: `${count(quality.gaps.length, 'gap')}${lost}; the longest ${(longest * 1000).toFixed(0)} ms. Nothing is made up inside a gap.`,
      todo: 'Keep the receiver within sight, or let the sensor store. Charge it if it is low.',
    });
  }
  if (quality.acc_clipped_samples > 0) {
    findings.push({
      picture: 'flat-top',
      short: ACCELERATION_CLIPPED,
      what: `The acceleration reached the end of the sensor's range${clippedContacts(quality)}.`,
      todo: "Raise the sensor's acceleration range where it has a higher one.",
    });
  }
  if (quality.gyr_clipped_samples > 0) {
    findings.push({
      picture: 'flat-top',
      short: 'rotation beyond its range',
      what: "The rotation reached the end of the sensor's range: angles and stride length there are not to be trusted.",
      todo: "Raise the sensor's rotation range where it has a higher one.",
    });
  }
  if (quality.jitter_ms > (JITTER_INTERVALS * 1000) / quality.sampling_rate_hz) {
    findings.push({
      picture: 'noise',
      short: 'time stamps jump',
      what: `The time stamps scatter by ${quality.jitter_ms.toFixed(1)} ms, more than half of an interval.`,
      todo: "Let the logger write the sensor's own time, not that of arrival.",
    });
  }
  if (findings.length === 0) {
    findings.push({
      picture: 'even',
      short: 'clean',
      what: `Recorded cleanly: ${rate}, no gaps, nothing out of range.`,
      todo: '',
    });
  }
  return findings;
}

/** What the analysis itself doubts, in a coach's words; its own words where there are none here. */
function ofFault(fault: Fault): Finding {
  const { code, message, where, hint } = speech.value.tell(fault);
  switch (code) {
    case 'SENSOR_SCALE_DOUBTFUL':
      return {
        picture: 'off-level',
        short: 'reads wrongly at rest',
        what: `Standing still it reads ${(Number(where.resting_norm_mps2) / STANDARD_GRAVITY_MPS2).toFixed(2)} g instead of 1.00 g: its scale is off.`,
        todo: 'Look at the unit of acceleration where the file comes in, or calibrate the sensor.',
      };
    case 'AXES_DOUBTFUL':
      return {
        picture: 'mirrored',
        short: 'axes do not fit each other',
        what: `Acceleration and rotation fit each other only with rotation about ${where.axes} turned round. Angles and stride length are not to be trusted.`,
        todo: `Turn the sign of rotation ${where.axes} in the columns of the file, under Files in.`,
      };
    default:
      return { picture: 'noise', short: message, what: message, todo: hint };
  }
}

function clippedContacts(quality: SensorQuality): string {
  return quality.contacts_with_clipping > 0 ? ` in ${count(quality.contacts_with_clipping, 'contact')}` : '';
}
