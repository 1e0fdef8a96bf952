import type { Analysis, MountingCheck, RepetitionResult, SensorQuality } from '../../shared/analysis.ts';
import type { Fault } from '../../shared/fault.ts';
import { type CheckFinding, FITNESS } from '../../shared/words.ts';

/** Fields of a contact and of a repetition that are instants. */
const CONTACT_INSTANTS = ['touchdown_s', 'toe_off_s', 'touchdown_raw_s', 'toe_off_raw_s'] as const;
const REPETITION_INSTANTS = ['first_movement_s', 'course_end_s', 'start_s', 'end_s'] as const;

/** What a window's analysis says besides its repetitions. */
export interface WindowAnalysis {
  analysis: Omit<Analysis, 'repetitions'>;
  /** Instant of the window's zero on the whole recording's clock. */
  zero_s: number;
  /** True where running was found in it. */
  ran: boolean;
}

/**
 * Joins the analyses of windows that follow each other into one of the whole recording.
 * @param parts in order
 */
export function joinAnalyses(parts: WindowAnalysis[], sensors: number): Omit<Analysis, 'repetitions'> {
  return {
    method: parts[0]?.analysis.method ?? '',
    other_activity: parts.flatMap(({ analysis, zero_s }) =>
      analysis.other_activity.map((activity) => ({
        ...activity,
        start_s: activity.start_s + zero_s,
        end_s: activity.end_s + zero_s,
      })),
    ),
    quality: Array.from({ length: sensors }, (_, k) =>
      joinQuality(parts.map(({ analysis, zero_s, ran }) => ({ quality: analysis.quality[k], ran, zero_s }))),
    ),
    filters: parts[0]?.analysis.filters ?? [],
    faults: withoutRepeats(parts.flatMap(({ analysis }) => analysis.faults)),
  };
}

/** A window's repetition on the whole recording's clock, under its number there. */
export function moveRepetition(found: RepetitionResult, by_s: number, repetition: number): RepetitionResult {
  const moved = { ...found, repetition };
  for (const name of REPETITION_INSTANTS) if (moved[name] !== null) (moved[name] as number) += by_s;
  moved.contacts = found.contacts.map((contact) => {
    const row = { ...contact, repetition };
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
    mounting_checks: joinChecks(all),
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

/** Of each check the window that tells most: one doubt is enough, and one window that can tell. */
function joinChecks(all: SensorQuality[]): MountingCheck[] {
  const telling: CheckFinding[] = ['cannot be told', 'as expected', 'doubtful'];
  const best = new Map<string, MountingCheck>();
  for (const check of all.flatMap(({ mounting_checks }) => mounting_checks ?? [])) {
    const known = best.get(check.check);
    if (!known || telling.indexOf(check.finding) > telling.indexOf(known.finding)) best.set(check.check, check);
  }
  return [...best.values()];
}

function withoutRepeats(faults: Fault[]): Fault[] {
  return [...new Map(faults.map((fault) => [JSON.stringify(fault), fault])).values()];
}
