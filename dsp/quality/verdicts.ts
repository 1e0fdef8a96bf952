import { MOUNTING_JUDGES } from './mountings.ts';
import { MOUNTING_PLACES } from '../../shared/mountings.ts';
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
  why: string;
}

/** For each quantity the worst verdict that applies, with its reason; 'good' where none does. */
export function verdicts(facts: RecordingFacts, settings: AnalysisSettings): QuantityVerdict[] {
  const q = settings.quality;
  const rate = `${Math.round(facts.sampling_rate_hz)} samples a second`;
  const wider: Fitness = 'usable with wider uncertainty';
  const never: Fitness = 'not measurable';
  const interval_ms = 1000 / facts.sampling_rate_hz;
  const timing: Ground[] = [
    {
      holds: facts.lost_share > q.much_lost,
      fitness: wider,
      why: `${percent(facts.lost_share)} of the samples were lost`,
    },
    { holds: facts.jitter_ms > q.jitter_intervals * interval_ms, fitness: wider, why: 'the time stamps jitter' },
  ];
  const otherSegment: Ground = {
    holds: facts.doubts.includes('segment'),
    fitness: never,
    why: `the sensor moves as one on the ${MOUNTING_PLACES[facts.mounting].mistaken_for}`,
  };
  const axes: Ground = {
    holds: facts.axes_doubtful,
    fitness: never,
    why: 'axes of rotation and of acceleration do not belong together',
  };
  const clipped: Ground = {
    holds: facts.contacts_with_clipping > q.clipped_contacts * facts.contacts,
    fitness: wider,
    why: `a channel reached its full scale in ${facts.contacts_with_clipping} of ${facts.contacts} contacts`,
  };
  const worn: Ground[] = [
    { holds: facts.doubts.includes('ringing'), fitness: wider, why: 'the sensor rings on its strap' },
    { holds: facts.doubts.includes('turning'), fitness: wider, why: 'the sensor turned on the leg' },
  ];
  const table: Record<string, Ground[]> = {
    step_rate_hz: [
      { ...otherSegment, fitness: wider, why: `${otherSegment.why}, and contacts are missed` },
      { holds: facts.sampling_rate_hz < q.rate_for_steps_hz, fitness: never, why: `${rate} do not resolve a stride` },
      {
        holds: facts.sampling_rate_hz < q.rate_for_good_steps_hz,
        fitness: wider,
        why: `${rate}: a touchdown is good to ${Math.round(interval_ms / 2)} ms`,
      },
      ...timing,
    ],
    contact_time_ms: [
      otherSegment,
      {
        holds: facts.sampling_rate_hz < q.rate_for_contact_time_hz,
        fitness: never,
        why: `${rate}: a contact of 100 ms would hold less than ${Math.ceil(0.1 * q.rate_for_contact_time_hz)} samples`,
      },
      {
        holds: facts.sampling_rate_hz < q.rate_for_good_contact_time_hz,
        fitness: wider,
        why: `${rate} smear the impact`,
      },
      { holds: !facts.has_gyroscope, fitness: wider, why: 'no gyroscope: toe-off is found from acceleration alone' },
      { ...axes, fitness: wider },
      ...worn,
      ...timing,
    ],
    angles: [
      otherSegment,
      axes,
      { holds: !facts.has_gyroscope, fitness: never, why: 'no gyroscope: turning is not measured' },
      {
        holds: facts.sampling_rate_hz < q.rate_for_contact_time_hz,
        fitness: never,
        why: `${rate} do not give the instants that the angles are read at`,
      },
      { holds: facts.doubts.includes('turning'), fitness: never, why: 'the sensor turned on the leg' },
      {
        holds: facts.doubts.includes('side'),
        fitness: wider,
        why: 'left and right seem swapped: toe out and toe in are then exchanged',
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
      { holds: !facts.has_gyroscope, fitness: never, why: 'no gyroscope: the direction of acceleration is unknown' },
      {
        holds: facts.swings_clipped_share > 0.5,
        fitness: never,
        why: 'the gyroscope reached its full scale in most swings',
      },
      {
        holds: facts.swings_clipped_share > 0,
        fitness: wider,
        why: 'the gyroscope reached its full scale in some swings',
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
      : { quantity, fitness: 'good', why: 'rate, range and losses are within what it needs' };
  });
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
