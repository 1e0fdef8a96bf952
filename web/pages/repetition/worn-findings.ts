import { MOUNTING_PLACES } from '../../../shared/mountings.ts';
import { speech } from '../../app/language.ts';
import type { MountingCheck, SensorQuality } from '../../../shared/analysis.ts';
import type { MountingCheckName } from '../../../shared/words.ts';
import type { Finding } from './finding.ts';

/** Codes of faults that the checks below tell in a coach's words. */
export const WORN_FAULTS: readonly string[] = ['MOUNTING_DOUBTFUL', 'SIDES_DOUBTFUL', 'SENSOR_LOOSE', 'SENSOR_TURNED'];

/** What a doubtful check of how the sensor was worn means, and what to do about it. */
function findingOf({ check, value, why: reason }: MountingCheck, { mounting }: SensorQuality): Finding {
  const why = speech.value.because(reason);
  const { place, mistaken_for } = MOUNTING_PLACES[mounting];
  const other = MOUNTING_PLACES[mistaken_for].place;
  const findings: Record<MountingCheckName, Finding> = {
    segment: {
      picture: 'other-place',
      short: `moves like one on the ${other}`,
      what: `The sensor moved as one on the ${other} does, not as one on the ${place}: contact times are left out, and contacts are missing.`,
      todo: `If it was on the ${other}, add the file again as worn on the ${other}.`,
    },
    side: {
      picture: 'swapped',
      short: 'left and right look swapped',
      what: 'Left and right look swapped: each leg turns as the other one should. Every figure then belongs to the other leg.',
      todo: 'See which sensor was on which leg. If they were swapped, add the files again the other way round.',
    },
    ringing: {
      picture: 'ringing',
      short: 'sat loose',
      what: `The sensor sat loose: ${why}. Touchdown and toe-off are blurred by it.`,
      todo: 'Tighten the strap before the next repetition; on the shoe, lace it in.',
    },
    turning: {
      picture: 'turned',
      short: 'slipped',
      what: `The sensor slipped: ${why}. Its angles are not to be trusted${value !== null && value > 45 ? ', nor the contacts of the shorter part' : ''}.`,
      todo: 'Put it back where it was and fasten it so that it cannot turn.',
    },
  };
  return findings[check];
}

/** The doubtful ones among the checks of how a sensor was worn. */
export function wornFindings(quality: SensorQuality): Finding[] {
  return (quality.mounting_checks ?? [])
    .filter(({ finding }) => finding === 'doubtful')
    .map((check) => findingOf(check, quality));
}

const LABELS: Record<MountingCheckName, string> = {
  segment: 'foot or shank',
  side: 'left or right',
  ringing: 'firm on its strap',
  turning: 'kept its place',
};

/** Every check with its outcome and evidence, for the scientist. */
export function wornFigures(quality: SensorQuality): [string, string][] {
  return (quality.mounting_checks ?? []).map(({ check, finding, why }) => [
    LABELS[check],
    `${finding}: ${speech.value.because(why)}`,
  ]);
}
