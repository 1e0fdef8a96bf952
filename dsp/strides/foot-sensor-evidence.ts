import type { ExtraRows } from '../fit/fit-sprint-curve.ts';
import { distanceAt, distanceGradient, speedAt } from '../fit/index.ts';
import type { StrideSettings } from '../settings/strides.ts';
import type { TrackedContact } from './foot-track.ts';

/** A foot's way between two rests, on the common clock. */
export interface MeasuredStride {
  contact: TrackedContact;
  from_s: number;
  to_s: number;
  length_m: number;
  length_m_u: number;
}

/**
 * Strides that could be integrated, in order of time.
 * @param toCommon from a sample index to the common clock, s
 */
export function measuredStrides(contacts: TrackedContact[], toCommon: (index: number) => number): MeasuredStride[] {
  return contacts.flatMap((contact) => {
    const { stride } = contact;
    if (!('length_m' in stride)) return [];
    const { length_m, length_m_u } = stride;
    return [{ contact, from_s: toCommon(stride.from), to_s: toCommon(stride.to), length_m, length_m_u }];
  });
}

/**
 * The foot sensors' strides as evidence on the acceleration curve: a foot covers between two rests what the body covers
 * in the same time. Free within their uncertainty are one scale for all strides, so that the times set the level and
 * the strides the shape, and the instant of the first movement, which a sensor on the foot sees early or late.
 * @param first_movement_s on the strides' clock
 * @param first_movement_s_u its standard uncertainty, s
 * @param end_s strides that end later are left out, s
 * @returns rows with two parameters of their own: scale, and what to add to the first movement, s
 */
export function strideEvidence(
  strides: MeasuredStride[],
  first_movement_s: number,
  first_movement_s_u: number,
  end_s: number,
  settings: StrideSettings,
): ExtraRows | undefined {
  const { common_share_u } = settings.foot;
  const used = strides.filter((s) => s.from_s > first_movement_s + 0.1 && s.to_s < end_s);
  if (used.length < 3) return undefined;
  return {
    start: [0, 0],
    linearise: (curve, _shift, [scale, late_s]) => {
      const residuals: number[] = [];
      const columns: number[][] = [[], [], [], [], []];
      const add = (residual: number, derivatives: number[]): void => {
        residuals.push(residual);
        derivatives.forEach((d, k) => {
          columns[k].push(d);
        });
      };
      for (const { from_s, to_s, length_m, length_m_u: u } of used) {
        const [a, b] = [from_s - first_movement_s - late_s, to_s - first_movement_s - late_s];
        const travelled = distanceAt(curve, b) - distanceAt(curve, a);
        const [ga, gb] = [distanceGradient(curve, Math.max(0, a)), distanceGradient(curve, Math.max(0, b))];
        const stretch = (1 + scale) / u;
        add((length_m - travelled * (1 + scale)) / u, [
          (gb.vmax - ga.vmax) * stretch,
          (gb.tau - ga.tau) * stretch,
          0,
          travelled / u,
          (speedAt(curve, a) - speedAt(curve, b)) * stretch,
        ]);
      }
      add(-scale / common_share_u, [0, 0, 0, 1 / common_share_u, 0]);
      add(-late_s / first_movement_s_u, [0, 0, 0, 0, 1 / first_movement_s_u]);
      return { residuals, columns };
    },
  };
}
