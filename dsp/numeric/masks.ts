/**
 * True where any entry in [from, to) is 1.
 * @param mask one entry a sample, 0 or 1
 * @param from first index looked at; below 0 counts as 0
 * @param to index after the last; beyond the end counts as the end
 * @returns false where none is 1, and of an empty stretch
 */
export function anySet(mask: Uint8Array, from: number, to: number): boolean {
  for (let i = Math.max(0, from); i < Math.min(mask.length, to); i++) if (mask[i] === 1) return true;
  return false;
}

/**
 * True where any entry in [from, to) is 0.
 * @param mask one entry a sample, 0 or 1
 * @param from first index looked at; below 0 counts as 0
 * @param to index after the last; beyond the end counts as the end
 * @returns false where none is 0, and of an empty stretch
 */
export function anyUnset(mask: Uint8Array, from: number, to: number): boolean {
  for (let i = Math.max(0, from); i < Math.min(mask.length, to); i++) if (mask[i] === 0) return true;
  return false;
}

/**
 * Length of the longest run of `value` that reaches into [from, to), in samples.
 * @param mask one entry a sample, 0 or 1
 * @param value which of them make a run
 * @param from first index of the stretch
 * @param to index after its last
 * @returns samples, those of the run outside the stretch included; 0 where none reaches into it
 */
export function longestRun(mask: Uint8Array, value: 0 | 1, from: number, to: number): number {
  let longest = 0;
  for (let i = Math.max(0, from); i < Math.min(mask.length, to); i++) {
    if (mask[i] !== value) continue;
    let [first, end] = [i, i];
    while (first > 0 && mask[first - 1] === value) first--;
    while (end < mask.length && mask[end] === value) end++;
    longest = Math.max(longest, end - first);
    i = end;
  }
  return longest;
}
