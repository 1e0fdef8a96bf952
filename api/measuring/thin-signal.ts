import type { Gap } from '../../shared/sample-block.ts';

/**
 * Puts a break (NaN in every column but time) in the middle of each gap, so that no line is drawn across it.
 * @param columns equal lengths; the first is time, increasing
 */
export function breakAtGaps(columns: Float64Array[], gaps: Gap[]): Float64Array[] {
  const time = columns[0];
  const inside = gaps.filter((gap) => time.length > 0 && gap.end_s > time[0] && gap.start_s < time[time.length - 1]);
  if (inside.length === 0) return columns;
  const breaks = inside.map((gap) => (gap.start_s + gap.end_s) / 2);
  const outs = columns.map((column) => new Float64Array(column.length + breaks.length));
  let next = 0;
  let to = 0;
  for (let i = 0; i < time.length; i++) {
    while (next < breaks.length && breaks[next] < time[i]) {
      outs.forEach((out, c) => {
        out[to] = c === 0 ? breaks[next] : Number.NaN;
      });
      next++;
      to++;
    }
    for (let c = 0; c < columns.length; c++) outs[c][to] = columns[c][i];
    to++;
  }
  return outs.map((out) => out.subarray(0, to));
}

/**
 * Fewer points that draw the same picture: of each run of samples every column keeps its lowest and its highest value in the
 * order they came. A run that holds a break keeps it.
 * @param columns equal lengths n; the first is time
 * @returns columns of at most `maxPoints` values; the given ones when they are few enough
 */
export function thinColumns(columns: Float64Array[], maxPoints: number): Float64Array[] {
  const n = columns[0].length;
  if (n <= maxPoints) return columns;
  const runs = Math.max(1, Math.floor(maxPoints / 2));
  const outs = columns.map(() => new Float64Array(2 * runs));
  for (let run = 0; run < runs; run++) {
    const from = Math.floor((run * n) / runs);
    const to = Math.floor(((run + 1) * n) / runs);
    const span = columns[0][to - 1] - columns[0][from];
    outs[0][2 * run] = columns[0][from] + span / 4;
    outs[0][2 * run + 1] = columns[0][from] + (3 * span) / 4;
    for (let c = 1; c < columns.length; c++) keepExtremes(columns[c], from, to, outs[c], 2 * run);
  }
  return outs;
}

function keepExtremes(column: Float64Array, from: number, to: number, out: Float64Array, at: number): void {
  let [lowest, highest] = [-1, -1];
  let broken = false;
  for (let i = from; i < to; i++) {
    if (Number.isNaN(column[i])) broken = true;
    else {
      if (lowest < 0 || column[i] < column[lowest]) lowest = i;
      if (highest < 0 || column[i] > column[highest]) highest = i;
    }
  }
  const [first, second] = lowest < highest ? [lowest, highest] : [highest, lowest];
  out[at] = first < 0 ? Number.NaN : column[first];
  out[at + 1] = broken || second < 0 ? Number.NaN : column[second];
}
