import type { Contact } from '../../shared/analysis.ts';
import type { AnalysisSettings } from '../settings.ts';

/**
 * Gives every contact its phase. A sprint accelerates, comes over into its maximum speed, holds it, and slows (Mero, Komi
 * and Gregor 1992, Sports Med 13:376-392; Delecluse 1997, Sports Med 24:147-156). By speed relative to the highest of the
 * repetition: below `transition` acceleration, from there transition, from `maximum` on maximum speed until it is left for good, then
 * slowing. Where speed is unknown, the rate at which the leg swings forward stands for it: both grow together.
 * @param rows contacts of one repetition in time order; changed in place
 * @param swing_radps forward rate of the swing after each contact, rad/s; null where unknown
 */
export function fillPhases(rows: Contact[], swing_radps: (number | null)[], settings: AnalysisSettings): void {
  const { transition, maximum } = settings.phases;
  const known = rows.filter((row) => row.speed_mps !== null).length > rows.length / 2;
  const pace = smoothed(known ? rows.map((row) => row.speed_mps) : bySide(rows, swing_radps));
  const highest = Math.max(...pace.filter((value) => value !== null));
  if (!(highest > 0)) return;
  const share = pace.map((value) => (value === null ? null : value / highest));
  const fast = share.map((value) => value !== null && value >= maximum);
  const first = fast.indexOf(true);
  const last = fast.lastIndexOf(true);
  rows.forEach((row, i) => {
    const value = share[i];
    if (value === null) return;
    if (i > last) row.phase = 'slowing';
    else if (i >= first) row.phase = 'maximum speed';
    else row.phase = value < transition ? 'acceleration' : 'transition';
  });
}

/** Each side relative to its own highest: two sensors on two legs need not read alike. */
function bySide(rows: Contact[], values: (number | null)[]): (number | null)[] {
  const top = new Map<string, number>();
  rows.forEach(({ side }, i) => {
    const value = values[i];
    if (value !== null) top.set(side, Math.max(top.get(side) ?? 0, value));
  });
  return values.map((value, i) => (value === null ? null : value / (top.get(rows[i].side) ?? 1)));
}

/** Mean over three neighbours, so that one odd step makes no phase. */
function smoothed(values: (number | null)[]): (number | null)[] {
  return values.map((value, i) => {
    const near = values.slice(Math.max(0, i - 1), i + 2).filter((v) => v !== null);
    return value === null || near.length === 0 ? null : near.reduce((a, b) => a + b, 0) / near.length;
  });
}
