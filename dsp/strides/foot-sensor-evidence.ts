import type { ExtraRows } from '../fit/fit-sprint-curve.ts';
import { distanceAt, distanceGradient } from '../fit/index.ts';
import type { TrackedContact } from './foot-track.ts';

/** A foot's way between two rests, on the common clock. */
export interface MeasuredStride {
  contact: TrackedContact;
  from_s: number;
  to_s: number;
  length_m: number;
  length_m_u: number;
}

/** All foot sensors of one athlete and run share errors of this size, as a share of length (see `integrateStride`). */
export const COMMON_SCALE_U = 0.015;

/** Strides that could be integrated, in order of time. */
export function measuredStrides(contacts: TrackedContact[], toCommon: (index: number) => number): MeasuredStride[] {
  return contacts.flatMap((contact) => {
    const { stride } = contact;
    if (!('length_m' in stride)) return [];
    const { length_m, length_m_u } = stride;
    return [{ contact, from_s: toCommon(stride.from), to_s: toCommon(stride.to), length_m, length_m_u }];
  });
}

/**
 * The foot sensors' strides as evidence on the acceleration curve: a foot covers between two rests what the body covers in the
 * same time. One scale for all of them is free within its uncertainty, so that the times set the level and the strides the
 * shape.
 * @param first_movement_s on the strides' clock
 */
export function strideEvidence(
  strides: MeasuredStride[],
  first_movement_s: number,
  end_s: number,
): ExtraRows | undefined {
  const used = strides.filter((s) => s.from_s > first_movement_s + 0.1 && s.to_s < end_s);
  if (used.length < 3) return undefined;
  return {
    start: [0],
    linearise: (curve, _shift, [scale]) => {
      const residuals: number[] = [];
      const columns: number[][] = [[], [], [], []];
      for (const { from_s, to_s, length_m, length_m_u } of used) {
        const [a, b] = [from_s - first_movement_s, to_s - first_movement_s];
        const travelled = distanceAt(curve, b) - distanceAt(curve, a);
        const [ga, gb] = [distanceGradient(curve, a), distanceGradient(curve, b)];
        residuals.push((length_m - travelled * (1 + scale)) / length_m_u);
        columns[0].push(((gb.vmax - ga.vmax) * (1 + scale)) / length_m_u);
        columns[1].push(((gb.tau - ga.tau) * (1 + scale)) / length_m_u);
        columns[2].push(0);
        columns[3].push(travelled / length_m_u);
      }
      residuals.push((0 - scale) / COMMON_SCALE_U);
      columns.forEach((column, k) => {
        column.push(k === 3 ? 1 / COMMON_SCALE_U : 0);
      });
      return { residuals, columns };
    },
  };
}
