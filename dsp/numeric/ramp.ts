/**
 * How far a value is on the way from one bound to the other, 0 to 1; 0 below and 1 beyond. The bounds may be in either order.
 * @param value in any unit
 * @param from bound that gives 0
 * @param to bound that gives 1, different from the other
 * @returns 0 to 1
 */
export function ramp(value: number, from: number, to: number): number {
  return Math.min(1, Math.max(0, (value - from) / (to - from)));
}
