import type { Contact } from '../../shared/analysis.ts';
import type { ExtraRows } from '../fit/fit-sprint-curve.ts';
import type { StrideSettings } from '../settings/strides.ts';

/**
 * The course of the contact times along the repetition says how fast the athlete approaches top speed, though nothing
 * about how high it is. Used when a total time is all there is.
 * @param rows contacts of one repetition
 * @param first_movement_s on the rows' clock
 * @param end_s last instant to use: the athlete slows down behind the finish
 */
export function contactTimeEvidence(
  rows: Contact[],
  first_movement_s: number,
  end_s: number,
  settings: StrideSettings,
): ExtraRows | undefined {
  const { contact_exponent: usual, contact_scatter_share: scatter } = settings.timing;
  const points = rows
    .filter((row) => row.contact_time_ms !== null && row.toe_off_s !== null && row.touchdown_s < end_s)
    .map((row) => ({
      t: (row.touchdown_s + row.toe_off_s!) / 2 - first_movement_s,
      log: Math.log(row.contact_time_ms! / 1000),
      u: Math.hypot(scatter, (row.contact_time_ms_u ?? 0) / row.contact_time_ms!),
    }))
    .filter((point) => point.t > 0.1);
  if (points.length < 6) return undefined;
  return {
    // The last contacts are those at speed: their level is a good start for a.
    start: [points[points.length - 1].log, usual.value],
    linearise: ({ tau_s }, _shift, [level, exponent]) => {
      const residuals: number[] = [];
      const columns: number[][] = [[], [], [], [], []];
      for (const { t, log, u } of points) {
        const e = Math.exp(-t / tau_s);
        const relative = Math.log(-Math.expm1(-t / tau_s));
        residuals.push((log - level + exponent * relative) / u);
        columns[0].push(0);
        columns[1].push((exponent * t * e) / (tau_s * tau_s * (1 - e)) / u);
        columns[2].push(0);
        columns[3].push(1 / u);
        columns[4].push(-relative / u);
      }
      residuals.push((usual.value - exponent) / usual.u);
      [0, 0, 0, 0, 1 / usual.u].forEach((d, k) => {
        columns[k].push(d);
      });
      return { residuals, columns };
    },
  };
}
