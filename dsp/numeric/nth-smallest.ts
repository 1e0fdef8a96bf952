/**
 * The value that would stand at a place if the values were in ascending order, without putting all of them in order.
 * @param values n finite values; they are moved about
 * @param place 0 to n - 1
 * @returns NaN of no values
 * Source: Hoare 1961, Algorithm 65: Find (Commun ACM 4:321-322), with the middle of three as the pivot.
 */
export function nthSmallest(values: Float64Array, place: number): number {
  let [from, to] = [0, values.length - 1];
  while (from < to) {
    const pivot = middleOfThree(values[from], values[(from + to) >> 1], values[to]);
    let [i, j] = [from, to];
    while (i <= j) {
      while (values[i] < pivot) i++;
      while (values[j] > pivot) j--;
      if (i <= j) {
        const moved = values[i];
        values[i++] = values[j];
        values[j--] = moved;
      }
    }
    if (place <= j) to = j;
    else if (place >= i) from = i;
    else return values[place];
  }
  return values[place] ?? Number.NaN;
}

function middleOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
