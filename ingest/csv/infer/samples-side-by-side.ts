import type { ColumnName } from '../columns/name-column.ts';
import type { HeadTable } from '../text/head-table.ts';

/** Consecutive samples of one sensor are nearly alike; two feet are not. */
const ALIKE = 0.8;

/**
 * Whether columns numbered behind their axis, `ax1` and `ax2`, hold a packet's samples one after the other rather than two sensors': then
 * both change alike from row to row.
 */
export function samplesSideBySide(names: ColumnName[], head: HeadTable): boolean {
  const at = (n: string) => names.find(({ name }) => new RegExp(`^a\\w*[ _]?x[ _]?${n}$`, 'i').test(name.trim()));
  const [one, two] = [at('1'), at('2')];
  if (!one || !two) return false;
  return correlation(head.numbers[one.index], head.numbers[two.index]) > ALIKE;
}

function correlation(a: Float64Array, b: Float64Array): number {
  const both = Array.from(a.keys()).filter((i) => Number.isFinite(a[i]) && Number.isFinite(b[i]));
  const mean = (column: Float64Array) => both.reduce((sum, i) => sum + column[i], 0) / both.length;
  const [ma, mb] = [mean(a), mean(b)];
  let [ab, aa, bb] = [0, 0, 0];
  for (const i of both) {
    ab += (a[i] - ma) * (b[i] - mb);
    aa += (a[i] - ma) ** 2;
    bb += (b[i] - mb) ** 2;
  }
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
}
