/** The middle one of the values, the upper of two; undefined where there is none. Their order stays as it is. */
export function middleValue(values: number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1];
}
