/**
 * Middle between two quantiles of a burst's energy. Its beginning is late where its end is early: a heel lands in two
 * blows, a forefoot in one. No peak has to be chosen.
 * @param jerk jerk magnitude
 * @param from first sample of the window, may have a fraction
 * @param to sample after its last
 * @param parts shares of the energy in the window
 * @returns fractional sample index; null where the window holds no energy
 */
export function burstMiddle(jerk: Float64Array, from: number, to: number, parts: readonly number[]): number | null {
  const [a, b] = [Math.max(0, Math.round(from)), Math.min(jerk.length, Math.round(to))];
  const sums: number[] = [];
  let total = 0;
  for (let i = a; i < b; i++) {
    total += jerk[i] * jerk[i];
    sums.push(total);
  }
  if (!(total > 0)) return null;
  const at = parts.map((part) => {
    const k = sums.findIndex((sum) => sum >= part * total);
    const before = k > 0 ? sums[k - 1] : 0;
    return a + k - (sums[k] - part * total) / (sums[k] - before);
  });
  return at.reduce((sum, t) => sum + t, 0) / at.length;
}
