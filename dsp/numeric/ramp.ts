/** How far a value is on the way from one bound to the other, 0 to 1; 0 below and 1 beyond. The bounds may be in either order. */
export function ramp(value: number, from: number, to: number): number {
  return Math.min(1, Math.max(0, (value - from) / (to - from)));
}
