/**
 * Cubic Hermite interpolation between two points of given slopes.
 * @param u place between them, 0 to 1
 * @param h distance between them, in the unit that the slopes are per
 */
export function cubicHermite(u: number, h: number, x0: number, x1: number, slope0: number, slope1: number): number {
  const v = 1 - u;
  return v * v * (1 + 2 * u) * x0 + u * u * (3 - 2 * u) * x1 + h * u * v * (v * slope0 - u * slope1);
}
