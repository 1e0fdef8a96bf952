/** Index of the first value not below `limit`; the length when there is none. @param values in rising order */
export function firstAtOrAfter(values: Float64Array, limit: number): number {
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle] < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}
