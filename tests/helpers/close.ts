import { expect } from 'vitest';

/** Expects two columns to agree entry by entry to the given number of decimals. */
export function expectColumnsClose(actual: ArrayLike<number>, expected: ArrayLike<number>, decimals: number): void {
  expect(actual.length).toBe(expected.length);
  for (let i = 0; i < expected.length; i++) expect(actual[i], `entry ${i}`).toBeCloseTo(expected[i], decimals);
}

/** Number of equal leading digits: -log10 of the relative error (NIST's log relative error), at most 16. */
export function equalDigits(actual: number, certified: number): number {
  if (actual === certified) return 16;
  const error = certified === 0 ? Math.abs(actual) : Math.abs((actual - certified) / certified);
  return -Math.log10(error);
}
