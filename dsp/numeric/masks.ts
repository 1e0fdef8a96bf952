/** True where any entry in [from, to) is 1. */
export function anySet(mask: Uint8Array, from: number, to: number): boolean {
  for (let i = Math.max(0, from); i < Math.min(mask.length, to); i++) if (mask[i] === 1) return true;
  return false;
}

/** True where any entry in [from, to) is 0. */
export function anyUnset(mask: Uint8Array, from: number, to: number): boolean {
  for (let i = Math.max(0, from); i < Math.min(mask.length, to); i++) if (mask[i] === 0) return true;
  return false;
}

/** Length of the longest run of `value` that reaches into [from, to), in samples. */
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
