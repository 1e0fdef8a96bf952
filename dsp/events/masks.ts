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

/** Length of the longest run of zeros that reaches into [from, to), in samples: the loss that an instant there suffers. */
export function longestLoss(mask: Uint8Array, from: number, to: number): number {
  let longest = 0;
  for (let i = Math.max(0, from); i < Math.min(mask.length, to); i++) {
    if (mask[i] === 1) continue;
    let [first, end] = [i, i];
    while (first > 0 && mask[first - 1] === 0) first--;
    while (end < mask.length && mask[end] === 0) end++;
    longest = Math.max(longest, end - first);
    i = end;
  }
  return longest;
}
