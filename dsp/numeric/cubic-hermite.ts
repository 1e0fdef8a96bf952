/**
 * Cubic Hermite interpolation between two points of given slopes.
 * @param part place between them, 0 to 1
 * @param h distance between them, in the unit that the slopes are per
 * @param x0 value at the first point
 * @param x1 value at the second, in the same unit
 * @param slope0 slope at the first, unit of x per unit of h
 * @param slope1 slope at the second
 * @returns the value there, in the unit of x0
 */
export function cubicHermite(part: number, h: number, x0: number, x1: number, slope0: number, slope1: number): number {
  const rest = 1 - part;
  return (
    rest * rest * (1 + 2 * part) * x0 +
    part * part * (3 - 2 * part) * x1 +
    h * part * rest * (rest * slope0 - part * slope1)
  );
}
