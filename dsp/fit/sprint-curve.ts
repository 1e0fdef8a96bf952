/**
 * The mono-exponential sprint: v(t) = vmax (1 - exp(-t / tau)), t from the first movement. Acceleration falls in
 * proportion to what is missing to the top speed. Source: Furusawa, Hill and Parkinson 1927, Proc R Soc B 102:29-42
 * (from memory); equations as in Samozino et al. 2016, doi 10.1111/sms.12490.
 */
export interface SprintCurve {
  vmax_mps: number;
  tau_s: number;
}

/**
 * Speed at t seconds from the first movement, m/s; 0 before it.
 * @param curve highest speed and time constant
 * @param t s
 * @returns m/s
 */
export function speedAt({ vmax_mps, tau_s }: SprintCurve, t: number): number {
  return t > 0 ? -vmax_mps * Math.expm1(-t / tau_s) : 0;
}

/**
 * Acceleration at t, m/s2.
 * @param curve highest speed and time constant
 * @param t s from the first movement
 * @returns m/s2
 */
export function accelerationAt({ vmax_mps, tau_s }: SprintCurve, t: number): number {
  return t >= 0 ? (vmax_mps / tau_s) * Math.exp(-t / tau_s) : 0;
}

/**
 * Distance run at t, m: vmax (t + tau exp(-t / tau)) - vmax tau.
 * @param curve highest speed and time constant
 * @param t s from the first movement
 * @returns m
 */
export function distanceAt({ vmax_mps, tau_s }: SprintCurve, t: number): number {
  return t > 0 ? vmax_mps * (t + tau_s * Math.expm1(-t / tau_s)) : 0;
}

/**
 * Time at which a distance is reached, s: the inverse of `distanceAt` (a Lambert W function), by Newton's method on
 * s + exp(-s) - 1 = d / (vmax tau), which is convex and therefore always converges from the right.
 * @param curve highest speed and time constant
 * @param distance_m from the start, 0 or more
 * @returns s from the first movement
 */
export function timeAtDistance({ vmax_mps, tau_s }: SprintCurve, distance_m: number): number {
  const ratio = distance_m / (vmax_mps * tau_s);
  if (!(ratio > 0)) return 0;
  let s = ratio < 1 ? Math.sqrt(2 * ratio) + ratio / 2 : ratio + 1;
  for (let i = 0; i < 60; i++) {
    const step = (s + Math.expm1(-s) - ratio) / -Math.expm1(-s);
    s -= step;
    if (Math.abs(step) <= 1e-15 * s) break;
  }
  return s * tau_s;
}

/**
 * Derivatives of distance at t by vmax and tau.
 * @param curve highest speed and time constant
 * @param t s from the first movement
 * @returns by vmax: s; by tau: m/s
 */
export function distanceGradient({ vmax_mps, tau_s }: SprintCurve, t: number): { vmax: number; tau: number } {
  const e = Math.exp(-t / tau_s);
  return { vmax: t + tau_s * Math.expm1(-t / tau_s), tau: vmax_mps * (Math.expm1(-t / tau_s) + (e * t) / tau_s) };
}
