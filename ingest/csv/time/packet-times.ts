/** Least-squares line through evenly counted instants: time = start + slope * (i - from); `worst` is the largest residual. */
export function straightenedLine(
  time: Float64Array,
  from: number,
  to: number,
): { start: number; slope: number; worst: number } {
  const n = to - from;
  let sumT = 0;
  let sumIT = 0;
  for (let i = 0; i < n; i++) {
    sumT += time[from + i] - time[from];
    sumIT += i * (time[from + i] - time[from]);
  }
  const meanI = (n - 1) / 2;
  const slope = n > 1 ? (sumIT - meanI * sumT) / ((n * (n * n - 1)) / 12) : 0;
  const start = time[from] + sumT / n - slope * meanI;
  let worst = 0;
  for (let i = 0; i < n; i++) worst = Math.max(worst, Math.abs(time[from + i] - start - slope * i));
  return { start, slope, worst };
}

/** Line through the first sample of every packet: its stamp stands for that sample. */
export function packetLine(
  time: Float64Array,
  from: number,
  to: number,
  period: number,
): { start: number; slope: number; worst: number } {
  const rows: number[] = [];
  for (let i = from; i < to; i++) if (i === from || time[i] !== time[i - 1]) rows.push(i);
  if (rows.length < 8) return { start: time[from], slope: period, worst: 0 };
  let meanRow = 0;
  let meanTime = 0;
  for (const row of rows) {
    meanRow += (row - from) / rows.length;
    meanTime += (time[row] - time[from]) / rows.length;
  }
  let top = 0;
  let bottom = 0;
  for (const row of rows) {
    top += (row - from - meanRow) * (time[row] - time[from] - meanTime);
    bottom += (row - from - meanRow) ** 2;
  }
  const slope = top / bottom;
  return { start: time[from] + meanTime - slope * meanRow, slope, worst: 0 };
}

/** A lost packet shifts all later stamps for good; a late one does not. */
export function packetGaps(time: Float64Array, period: number): [number, number][] {
  const rows: number[] = [];
  for (let i = 0; i < time.length; i++) if (i === 0 || time[i] !== time[i - 1]) rows.push(i);
  const ahead = rows.map((row) => time[row] - time[0] - row * period);
  const size = rows.length > 1 ? (rows[rows.length - 1] - rows[0]) / (rows.length - 1) : 1;
  const around = 6;
  const found: [number, number][] = [];
  for (let j = 1; j < rows.length; j++) {
    const step = ahead[j] - ahead[j - 1];
    if (step < 0.6 * Math.max(1, size) * period || step < 1.5 * period) continue;
    const before = median(ahead.slice(Math.max(0, j - around), j));
    const after = median(ahead.slice(j, j + around));
    const shift = after - before;
    if (shift > 0.6 * Math.max(1, size) * period && shift > 0.5 * step)
      found.push([rows[j], Math.max(1, Math.round(shift / period))]);
  }
  return found;
}

function median(values: number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1];
}
