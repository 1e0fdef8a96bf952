import type { SensorQuality } from '../../../shared/analysis.ts';
import { count } from '../../app/describe.ts';

/** Which small picture goes with a finding. */
export type FindingPicture = 'even' | 'gap' | 'flat-top' | 'coarse' | 'tilted' | 'noise';

/** Something about a recording in a coach's words. */
export interface Finding {
  picture: FindingPicture;
  what: string;
  /** What to do before the next repetition; empty when all is well. */
  todo: string;
}

/** Rate from which on contact times are comfortably good; whether they can be had at all is the analysis' verdict. */
const COMFORTABLE_HZ = 200;

/** Pictures of what the analysis itself found; the rest gets the one of a disturbed signal. */
const PICTURES: Record<string, FindingPicture> = { SENSOR_SCALE_DOUBTFUL: 'tilted', AXES_DOUBTFUL: 'tilted' };

/** What happened to one sensor's recording and what to do about it, worst first; one 'even' finding when all is well. */
export function findingsOf(quality: SensorQuality): Finding[] {
  const findings: Finding[] = [];
  const rate = `${quality.sampling_rate_hz.toFixed(0)} samples a second`;
  if (quality.sampling_rate_hz < COMFORTABLE_HZ) {
    const verdict = quality.verdicts.find((one) => one.quantity === 'contact_time_ms');
    const lost = verdict?.fitness === 'not measurable';
    findings.push({
      picture: 'coarse',
      what: lost ? `Only ${rate}: too coarse for contact times.` : `${rate}: contact times carry a wider uncertainty.`,
      todo: 'Set the sensor to 200 a second or more where it can.',
    });
  }
  if (quality.gaps.length > 0) {
    const longest = Math.max(...quality.gaps.map((gap) => gap.end_s - gap.start_s));
    const lost = quality.lost_samples > 0 ? `, ${count(quality.lost_samples, 'sample')} lost` : '';
    findings.push({
      picture: 'gap',
      what: `${count(quality.gaps.length, 'gap')}${lost}; the longest ${(longest * 1000).toFixed(0)} ms. Nothing is made up inside a gap.`,
      todo: 'Keep the receiver within sight, or let the sensor store and read it out afterwards. Charge it if it is low.',
    });
  }
  if (quality.acc_clipped_samples > 0) {
    findings.push({
      picture: 'flat-top',
      what: `The acceleration reached the end of the sensor's range${clippedContacts(quality)}.`,
      todo: "Raise the sensor's acceleration range where it has a higher one.",
    });
  }
  if (quality.gyr_clipped_samples > 0) {
    findings.push({
      picture: 'flat-top',
      what: "The rotation reached the end of the sensor's range: angles and stride length there are not to be trusted.",
      todo: "Raise the sensor's rotation range where it has a higher one.",
    });
  }
  for (const fault of quality.faults) {
    findings.push({ picture: PICTURES[fault.code] ?? 'noise', what: fault.message, todo: fault.hint });
  }
  if (findings.length === 0) {
    findings.push({ picture: 'even', what: `Recorded cleanly: ${rate}, no gaps, nothing out of range.`, todo: '' });
  }
  return findings;
}

function clippedContacts(quality: SensorQuality): string {
  return quality.contacts_with_clipping > 0 ? ` in ${count(quality.contacts_with_clipping, 'contact')}` : '';
}
