import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import { speech, phrasesOf } from '../../app/language.ts';
import type { MountingCheck, SensorQuality } from '../../../shared/analysis.ts';
import type { MountingCheckName } from '../../../shared/words.ts';
import type { Finding } from './finding.ts';

const t = phrasesOf('repetition', repetitionWords);

/** Codes of faults that the checks below tell in a coach's words. */
export const WORN_FAULTS: readonly string[] = ['MOUNTING_DOUBTFUL', 'SIDES_DOUBTFUL', 'SENSOR_LOOSE', 'SENSOR_TURNED'];

/** What a doubtful check of how the sensor was worn means, and what to do about it. */
function findingOf({ check, value, why: reason }: MountingCheck, { mounting }: SensorQuality): Finding {
  const why = speech.value.because(reason);
  const findings: Record<MountingCheckName, Finding> = {
    segment: {
      picture: 'other-place',
      short: t('other_place', { mounting }),
      what: t('other_place_what', { mounting }),
      todo: t('todo_other_place', { mounting }),
    },
    side: { picture: 'swapped', short: t('swapped'), what: t('swapped_what'), todo: t('todo_swapped') },
    ringing: { picture: 'ringing', short: t('loose'), what: t('loose_what', { why }), todo: t('todo_loose') },
    turning: {
      picture: 'turned',
      short: t('slipped'),
      what: t('slipped_what', { why, far: value !== null && value > 45 }),
      todo: t('todo_slipped'),
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

const labels = (): Record<MountingCheckName, string> => ({
  segment: t('foot_or_shank'),
  side: t('left_or_right'),
  ringing: t('firm_on_its_strap'),
  turning: t('kept_its_place'),
});

/** Every check with its outcome and evidence, for the scientist. */
export function wornFigures(quality: SensorQuality): [string, string][] {
  return (quality.mounting_checks ?? []).map(({ check, finding, why }) => [
    labels()[check],
    `${finding}: ${speech.value.because(why)}`,
  ]);
}
