import type { Analysis, RepetitionResult, SensorQuality } from '../../shared/analysis.ts';
import type { Fault } from '../../shared/fault.ts';
import { FITNESS } from '../../shared/words.ts';

/** Fields of a contact and of a repetition that are instants. */
const CONTACT_INSTANTS = ['touchdown_s', 'toe_off_s', 'touchdown_raw_s', 'toe_off_raw_s'] as const;
const REPETITION_INSTANTS = ['first_movement_s', 'course_end_s', 'start_s', 'end_s'] as const;

/**
 * Joins the analyses of windows that follow each other into one of the whole recording.
 * @param parts in order, with the instant of each one's zero on the whole recording's clock
 */
export function joinAnalyses(parts: { analysis: Analysis; zero_s: number }[], sensors: number): Analysis {
  const repetitions = parts
    .flatMap(({ analysis, zero_s }) => analysis.repetitions.map((repetition) => moveRepetition(repetition, zero_s)))
    .map((repetition, i) => ({
      ...repetition,
      repetition: i + 1,
      contacts: repetition.contacts.map((contact) => ({ ...contact, repetition: i + 1 })),
    }));
  return {
    method: parts[0]?.analysis.method ?? '',
    repetitions,
    other_activity: parts.flatMap(({ analysis, zero_s }) =>
      analysis.other_activity.map((activity) => ({
        ...activity,
        start_s: activity.start_s + zero_s,
        end_s: activity.end_s + zero_s,
      })),
    ),
    quality: Array.from({ length: sensors }, (_, k) =>
      joinQuality(
        parts.map(({ analysis, zero_s }) => ({
          quality: analysis.quality[k],
          ran: analysis.repetitions.length > 0,
          zero_s,
        })),
      ),
    ),
    filters: parts[0]?.analysis.filters ?? [],
    faults: withoutRepeats(parts.flatMap(({ analysis }) => analysis.faults)),
  };
}

function moveRepetition(repetition: RepetitionResult, by_s: number): RepetitionResult {
  const moved = { ...repetition };
  for (const name of REPETITION_INSTANTS) if (moved[name] !== null) (moved[name] as number) += by_s;
  moved.contacts = repetition.contacts.map((contact) => {
    const row = { ...contact };
    for (const name of CONTACT_INSTANTS) if (row[name] !== null) (row[name] as number) += by_s;
    return row;
  });
  return moved;
}

/** Counts add up, noise and jitter are weighted by samples, and a verdict is as good as the worst window with running. */
function joinQuality(parts: { quality: SensorQuality; ran: boolean; zero_s: number }[]): SensorQuality {
  const all = parts.map(({ quality }) => quality);
  const ran = parts.filter((part) => part.ran).map(({ quality }) => quality);
  const sum = (pick: (quality: SensorQuality) => number) => all.reduce((total, quality) => total + pick(quality), 0);
  const samples = sum((quality) => quality.samples);
  const mean = (pick: (quality: SensorQuality) => number | null): number | null => {
    const known = all.filter((quality) => pick(quality) !== null);
    const weight = known.reduce((total, quality) => total + quality.samples, 0);
    return weight > 0 ? known.reduce((total, quality) => total + pick(quality)! * quality.samples, 0) / weight : null;
  };
  return {
    ...all[0],
    sampling_rate_hz: mean((quality) => quality.sampling_rate_hz)!,
    jitter_ms: mean((quality) => quality.jitter_ms)!,
    samples,
    duration_s: sum((quality) => quality.duration_s),
    lost_samples: sum((quality) => quality.lost_samples),
    gaps: parts.flatMap(({ quality, zero_s }) =>
      quality.gaps.map((gap) => ({ ...gap, start_s: gap.start_s + zero_s, end_s: gap.end_s + zero_s })),
    ),
    acc_clipped_samples: sum((quality) => quality.acc_clipped_samples),
    gyr_clipped_samples: sum((quality) => quality.gyr_clipped_samples),
    contacts_with_clipping: sum((quality) => quality.contacts_with_clipping),
    resting_norm_mps2: mean((quality) => quality.resting_norm_mps2),
    gyr_bias_radps: mean((quality) => quality.gyr_bias_radps),
    acc_noise_mps2: mean((quality) => quality.acc_noise_mps2),
    gyr_noise_radps: mean((quality) => quality.gyr_noise_radps),
    bandwidth_hz: mean((quality) => quality.bandwidth_hz),
    verdicts: worstVerdicts(ran.length > 0 ? ran : all),
    faults: withoutRepeats(all.flatMap((quality) => quality.faults)),
  };
}

function worstVerdicts(all: SensorQuality[]): SensorQuality['verdicts'] {
  const worst = new Map<string, SensorQuality['verdicts'][number]>();
  for (const verdict of all.flatMap((quality) => quality.verdicts)) {
    const known = worst.get(verdict.quantity);
    if (!known || FITNESS.indexOf(verdict.fitness) > FITNESS.indexOf(known.fitness))
      worst.set(verdict.quantity, verdict);
  }
  return [...worst.values()];
}

function withoutRepeats(faults: Fault[]): Fault[] {
  return [...new Map(faults.map((fault) => [`${fault.code} ${fault.message}`, fault])).values()];
}
