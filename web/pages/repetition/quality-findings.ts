import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import type { SensorQuality } from '../../../shared/analysis.ts';
import type { Fault } from '../../../shared/fault.ts';
import { speech, phrasesOf } from '../../app/language.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import type { Finding } from './finding.ts';
import { WORN_FAULTS, wornFindings } from './worn-findings.ts';

const t = phrasesOf('repetition', repetitionWords);

/** Rate from which on contact times are comfortably good; whether they can be had at all is the analysis' verdict. */
const COMFORTABLE_HZ = 200;
/** Time stamps that scatter by more than this share of an interval are told of (the limit of the analysis' own verdict). */
const JITTER_INTERVALS = 0.5;

/** What happened to one sensor's recording and what to do about it, worst first; one 'even' finding when all is well. */
export function findingsOf(quality: SensorQuality): Finding[] {
  const findings: Finding[] = wornFindings(quality);
  const { sampling_rate_hz: rate_hz, jitter_ms } = quality;
  // What the checks of how it was worn found is told by them.
  for (const fault of quality.faults) if (!WORN_FAULTS.includes(fault.code)) findings.push(ofFault(fault));
  if (rate_hz < COMFORTABLE_HZ) {
    const verdict = quality.verdicts.find((one) => one.quantity === 'contact_time_ms');
    const lost = verdict?.fitness === 'not measurable';
    findings.push({
      picture: 'coarse',
      short: t('only_rate', { rate_hz }),
      what: lost ? t('too_coarse', { rate_hz }) : t('coarse', { rate_hz }),
      todo: t('todo_rate'),
    });
  }
  if (quality.gaps.length > 0) {
    const n = quality.gaps.length;
    const longest_s = Math.max(...quality.gaps.map((gap) => gap.end_s - gap.start_s));
    findings.push({
      picture: 'gap',
      short: t('gaps', { n }),
      what: t('gaps_what', { n, lost: quality.lost_samples, longest_ms: longest_s * 1000 }),
      todo: t('todo_gaps'),
    });
  }
  if (quality.acc_clipped_samples > 0) {
    findings.push({
      picture: 'flat-top',
      short: t('acc_clipped'),
      what: t('acc_clipped_what', { contacts: quality.contacts_with_clipping }),
      todo: t('todo_acc_clipped'),
      everyday: true,
    });
  }
  if (quality.gyr_clipped_samples > 0) {
    findings.push({
      picture: 'flat-top',
      short: t('gyr_clipped'),
      what: t('gyr_clipped_what'),
      todo: t('todo_gyr_clipped'),
    });
  }
  if (jitter_ms > (JITTER_INTERVALS * 1000) / rate_hz) {
    findings.push({
      picture: 'noise',
      short: t('stamps_jump'),
      what: t('stamps_jump_what', { jitter_ms }),
      todo: t('todo_stamps'),
    });
  }
  if (findings.length === 0) {
    findings.push({
      picture: 'even',
      short: t('clean'),
      what: t('clean_what', { rate_hz }),
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
        short: t('wrong_at_rest'),
        what: t('wrong_at_rest_what', { g: Number(where.resting_norm_mps2) / STANDARD_GRAVITY_MPS2 }),
        todo: t('todo_scale'),
      };
    case 'AXES_DOUBTFUL':
      return {
        picture: 'mirrored',
        short: t('axes_misfit'),
        what: t('axes_misfit_what', { axes: String(where.axes) }),
        todo: t('todo_axes', { axes: String(where.axes) }),
      };
    default:
      return { picture: 'noise', short: message, what: message, todo: hint };
  }
}
