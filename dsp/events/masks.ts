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
