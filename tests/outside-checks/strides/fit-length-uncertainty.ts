/**
 * Finds the two settings of a stride length's uncertainty that hold for everybody, and says how far they hold for a runner whom they were not
 * found from. The other parts of the uncertainty (rolling, impacts, height) are taken as they are set.
 */
import { sensorSignals } from '../../../dsp/signals/sensor-signals.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { trackFoot } from '../../../dsp/strides/foot-track.ts';
import { contactRows } from '../../helpers/contact-rows.ts';
import { forcePlateCases, runnerOf } from '../validation/force-plate-cases.ts';
import { timeScaled } from '../validation/time-scaled.ts';
import { shoeStrides } from './stride-figures.ts';

/** A stride with its error against the belt or motion capture, and what its uncertainty is made of. */
export interface JudgedStride {
  set: 'belts' | 'twice as fast' | 'shoe';
  runner: string;
  error_m: number;
  length_m: number;
  duration_s: number;
  /** Variance by all other parts, m2. */
  other_m2: number;
}

const { foot } = DEFAULT_SETTINGS.strides;

/** The parts of a stated uncertainty that are not being fitted. */
function otherParts(length_m_u: number, length_m: number, duration_s: number): number {
  return length_m_u ** 2 - (foot.rest_speed_mps_u * duration_s) ** 2 - (foot.length_share_u * length_m) ** 2;
}

/**
 * Every stride of the recordings that could be integrated, with the reference's own contacts.
 * @param speed of the belt as the recordings' names tell it, `T35`; all without it, and the same twice as fast
 */
export async function judgedStrides(folders: string[], speed?: string): Promise<JudgedStride[]> {
  const found: JudgedStride[] = [];
  for (const folder of folders) {
    for await (const recorded of forcePlateCases(folder, speed ?? 'treadmill')) {
      if (recorded.mounting !== 'foot' || recorded.course.belt_speed_mps === null) continue;
      const runner = runnerOf(recorded.name);
      const sets: [JudgedStride['set'], typeof recorded][] = [['belts', recorded]];
      if (speed === undefined) sets.push(['twice as fast', timeScaled(recorded, 2)]);
      for (const [set, { sensors, reference }] of sets) {
        const truth = new Map(reference.map((c) => [`${c.side} ${c.touchdown_s}`, c.stride_length_m]));
        const rows = contactRows(reference);
        for (const recording of sensors) {
          const sensor = { recording, signals: sensorSignals(recording, DEFAULT_SETTINGS) };
          for (const { row, stride } of trackFoot(rows, sensor, DEFAULT_SETTINGS.strides)) {
            const way = truth.get(`${row.side} ${row.touchdown_s}`);
            if (!('length_m' in stride) || !way) continue;
            const { length_m, length_m_u, duration_s } = stride;
            const other_m2 = otherParts(length_m_u, length_m, duration_s);
            found.push({ set, runner, error_m: length_m - way, length_m, duration_s, other_m2 });
          }
        }
      }
    }
  }
  for (const { stride, truth_m } of await shoeStrides(folders[0])) {
    if ('reason' in stride) continue;
    const { length_m, length_m_u, duration_s } = stride;
    const other_m2 = otherParts(length_m_u, length_m, duration_s);
    found.push({ set: 'shoe', runner: 'shoe', error_m: length_m - truth_m, length_m, duration_s, other_m2 });
  }
  return found;
}

type Fitted = { rest_speed_mps_u: number; length_share_u: number };

const variance = ({ duration_s, length_m, other_m2 }: JudgedStride, { rest_speed_mps_u, length_share_u }: Fitted) =>
  (rest_speed_mps_u * duration_s) ** 2 + (length_share_u * length_m) ** 2 + other_m2;

/** The likeliest pair on a grid; every runner counts alike in each set, the shoe's one runner as eight. */
export function likeliest(strides: JudgedStride[]): Fitted {
  const counts = new Map<string, number>();
  const key = ({ set, runner }: JudgedStride) => `${set} ${runner}`;
  for (const stride of strides) counts.set(key(stride), (counts.get(key(stride)) ?? 0) + 1);
  let best: Fitted & { cost: number } = { rest_speed_mps_u: 0, length_share_u: 0, cost: Number.POSITIVE_INFINITY };
  for (let rest = 0; rest <= 0.03; rest += 0.001) {
    for (let share = 0.008; share <= 0.02; share += 0.0002) {
      const fitted = { rest_speed_mps_u: rest, length_share_u: share };
      let cost = 0;
      for (const stride of strides) {
        const v = variance(stride, fitted);
        cost += ((stride.set === 'shoe' ? 8 : 1) / counts.get(key(stride))!) * (Math.log(v) + stride.error_m ** 2 / v);
      }
      if (cost < best.cost) best = { ...fitted, cost };
    }
  }
  return best;
}

/** Share of the 95 % intervals that hold, by set and runner, each by what all others gave. */
export function leaveOneRunnerOut(strides: JudgedStride[]): { set: string; runner: string; held: number; n: number }[] {
  return [...new Set(strides.map(({ runner }) => runner))].flatMap((runner) => {
    const fitted = likeliest(strides.filter((stride) => stride.runner !== runner));
    const own = strides.filter((stride) => stride.runner === runner);
    return [...new Set(own.map(({ set }) => set))].map((set) => {
      const mine = own.filter((stride) => stride.set === set);
      const held = mine.filter((stride) => Math.abs(stride.error_m) <= 1.96 * Math.sqrt(variance(stride, fitted)));
      return { set, runner, held: held.length, n: mine.length };
    });
  });
}
