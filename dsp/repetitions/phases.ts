import type { Contact } from '../../shared/analysis.ts';
import type { AnalysisSettings } from '../settings/settings.ts';

/**
 * Gives every contact its phase. A sprint accelerates, comes over into its maximum speed, holds it, and slows (Mero, Komi
 * and Gregor 1992, Sports Med 13:376-392; Delecluse 1997, Sports Med 24:147-156). By speed relative to the highest of the
 * repetition: below `transition` acceleration, from there transition, from `maximum` on maximum speed. Slowing begins when the leg
 * swings for good more slowly than `slowing` of its fastest: a speed from timing gates does not see the run-out, the swing does.
 * Where speed is unknown the swing stands for it: both grow together.
 * @param rows contacts of one repetition in time order; changed in place
 * @param swing_radps forward rate of the swing after each contact, rad/s; null where unknown
 */
export function fillPhases(rows: Contact[], swing_radps: (number | null)[], settings: AnalysisSettings): void {
  const { transition, maximum, slowing } = settings.phases;
  const swing = shares(bySide(rows, swing_radps));
  const measured = rows.map((row) => row.speed_mps);
  const speed = measured.filter((value) => value !== null).length > rows.length / 2 ? shares(measured) : swing;
  const first = speed.findIndex((share) => share !== null && share >= maximum);
  if (first < 0) return;
  const usual = swing.some((share) => share !== null) ? swing : speed;
  const last = usual.map((share) => share !== null && share >= slowing).lastIndexOf(true);
  rows.forEach((row, i) => {
    const share = speed[i];
    if (i > last && i >= first) row.phase = 'slowing';
    else if (i >= first) row.phase = 'maximum speed';
    else if (share !== null) row.phase = share < transition ? 'acceleration' : 'transition';
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

/** Shares of the highest of the means over three neighbours, so that one odd step makes no phase. */
function shares(values: (number | null)[]): (number | null)[] {
  const smooth = values.map((value, i) => {
    const near = values.slice(Math.max(0, i - 1), i + 2).filter((v) => v !== null);
    return value === null || near.length === 0 ? null : near.reduce((a, b) => a + b, 0) / near.length;
  });
  const highest = Math.max(...smooth.filter((value) => value !== null));
  return smooth.map((value) => (value === null || !(highest > 0) ? null : value / highest));
}
