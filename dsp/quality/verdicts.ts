import { MOUNTING_JUDGES } from './mountings.ts';
import { because, type Reason } from '../../shared/reason.ts';
import type { QuantityVerdict } from '../../shared/analysis.ts';
import type { Fitness, Mounting, MountingCheckName } from '../../shared/words.ts';
import type { AnalysisSettings } from '../settings/settings.ts';

/** What decides how far a recording can be trusted. */
export interface RecordingFacts {
  mounting: Mounting;
  sampling_rate_hz: number;
  has_gyroscope: boolean;
  /** Shares, 0 to 1. */
  lost_share: number;
  contacts: number;
  contacts_with_clipping: number;
  swings_clipped_share: number;
  jitter_ms: number;
  /** Checks of how the sensor was worn that came out doubtful. */
  doubts: MountingCheckName[];
  /** Axes of rotation and of acceleration do not belong together. */
  axes_doubtful: boolean;
}

interface Ground {
  holds: boolean;
  fitness: Fitness;
  why: Reason;
}

/** For each quantity the worst verdict that applies, with its reason; 'good' where none does. */
export function verdicts(facts: RecordingFacts, settings: AnalysisSettings): QuantityVerdict[] {
  const q = settings.quality;
  const rate = { rate_hz: facts.sampling_rate_hz };
  const { mounting } = facts;
  const wider: Fitness = 'usable with wider uncertainty';
  const never: Fitness = 'not measurable';
  const interval_ms = 1000 / facts.sampling_rate_hz;
  const timing: Ground[] = [
    {
      holds: facts.lost_share > q.much_lost,
      fitness: wider,
      why: because('samples_lost', { share: facts.lost_share }),
    },
    { holds: facts.jitter_ms > q.jitter_intervals * interval_ms, fitness: wider, why: because('stamps_jitter') },
  ];
  const otherSegment: Ground = {
    holds: facts.doubts.includes('segment'),
    fitness: never,
    why: because('moves_as_other', { mounting }),
  };
  const axes: Ground = {
    holds: facts.axes_doubtful,
    fitness: never,
    why: because('axes_doubtful'),
  };
  const clipped: Ground = {
    holds: facts.contacts_with_clipping > q.clipped_contacts * facts.contacts,
    fitness: wider,
    why: because('full_scale_in_contacts', { clipped: facts.contacts_with_clipping, contacts: facts.contacts }),
  };
  const worn: Ground[] = [
    { holds: facts.doubts.includes('ringing'), fitness: wider, why: because('rings') },
    { holds: facts.doubts.includes('turning'), fitness: wider, why: because('turned') },
  ];
  const table: Record<string, Ground[]> = {
    step_rate_hz: [
      { ...otherSegment, fitness: wider, why: because('moves_as_other_contacts_missed', { mounting }) },
      { holds: facts.sampling_rate_hz < q.rate_for_steps_hz, fitness: never, why: because('rate_no_stride', rate) },
      {
        holds: facts.sampling_rate_hz < q.rate_for_good_steps_hz,
        fitness: wider,
        why: because('rate_touchdown', { ...rate, good_to_ms: interval_ms / 2 }),
      },
      ...timing,
    ],
    contact_time_ms: [
      otherSegment,
      {
        holds: facts.sampling_rate_hz < q.rate_for_contact_time_hz,
        fitness: never,
        why: because('rate_contact', { ...rate, samples: Math.ceil(0.1 * q.rate_for_contact_time_hz) }),
      },
      {
        holds: facts.sampling_rate_hz < q.rate_for_good_contact_time_hz,
        fitness: wider,
        why: because('rate_smears', rate),
      },
      { holds: !facts.has_gyroscope, fitness: wider, why: because('no_gyroscope_toe_off') },
      { ...axes, fitness: wider },
      ...worn,
      ...timing,
    ],
    angles: [
      otherSegment,
      axes,
      { holds: !facts.has_gyroscope, fitness: never, why: because('no_gyroscope_turning') },
      {
        holds: facts.sampling_rate_hz < q.rate_for_contact_time_hz,
        fitness: never,
        why: because('rate_angles', rate),
      },
      { holds: facts.doubts.includes('turning'), fitness: never, why: because('turned') },
      {
        holds: facts.doubts.includes('side'),
        fitness: wider,
        why: because('swapped_toe_out'),
      },
      clipped,
      ...worn,
      ...timing,
    ],
  };
  if (MOUNTING_JUDGES[facts.mounting].measures_stride_length) {
    table.stride_length_m = [
      otherSegment,
      axes,
      { holds: !facts.has_gyroscope, fitness: never, why: because('no_gyroscope_direction') },
      {
        holds: facts.swings_clipped_share > 0.5,
        fitness: never,
        why: because('full_scale_most_swings'),
      },
      {
        holds: facts.swings_clipped_share > 0,
        fitness: wider,
        why: because('full_scale_some_swings'),
      },
      clipped,
      ...worn,
      ...timing,
    ];
  }
  return Object.entries(table).map(([quantity, grounds]) => {
    const ground =
      grounds.find(({ holds, fitness }) => holds && fitness === never) ?? grounds.find(({ holds }) => holds);
    return ground
      ? { quantity, fitness: ground.fitness, why: ground.why }
      : { quantity, fitness: 'good', why: because('good') };
  });
}
