import { because, type CodedReason } from '../../../shared/reason.ts';
import { significant } from '../columns/significant.ts';
import type { TimeHabits } from './time-habits.ts';
import type { Gap } from '../../../shared/sample-block.ts';
import { straightenedLine, packetGaps, packetLine } from './packet-times.ts';
import { ClockUnroller } from './unroll-clock.ts';

/** What was met on the way, counted. */
export interface TimeEvents {
  restarts: number;
  wraps: number;
  out_of_order: number;
  duplicates: number;
}

export interface BuiltTime {
  time_s: Float64Array;
  /** Indices of the input rows in order; null where all rows stay as they are. */
  order: Int32Array | null;
  /** Input rows whose stamp cannot be right, with the reason; repeats of a row are not among them. */
  misplaced: { row: number; found: CodedReason }[];
  gaps: Gap[];
}

const GAP_FACTOR = 1.7;
/** Rows that stand twice are rarer than this; a sensor slower than its file repeats more of them. */
const MOST_REPEATED_SHARE = 0.0005;

/**
 * Turns the raw stamps of one sensor into strictly increasing seconds from its first sample, block by block in bounded memory.
 * Late rows are put in order, exact repeats dropped, full clocks continued, restarts and gaps recorded; nothing is filled in.
 */
export class TimeBuilder {
  readonly events: TimeEvents = { restarts: 0, wraps: 0, out_of_order: 0, duplicates: 0 };
  private readonly unroller: ClockUnroller;
  private lastTime = Number.NaN;
  private lastCounter = Number.NaN;
  private stepSum = 0;
  private stepCount = 0;

  constructor(private readonly habits: TimeHabits) {
    this.unroller = new ClockUnroller(habits);
  }

  /** Mean sampling rate without the gaps, Hz. */
  rate(): number {
    return this.stepCount > 0 && this.stepSum > 0 ? this.stepCount / this.stepSum : 1 / this.habits.period_s;
  }

  /**
   * @param raw n stamps, seconds from the first stamp of the recording
   * @param counter n packet or sample counts, or null
   * @param same tells whether two rows hold the same values
   */
  build(raw: Float64Array, counter: Float64Array | null, same: (a: number, b: number) => boolean): BuiltTime {
    const { time, restartRows, wrong } = this.unroller.unroll(raw);
    this.events.restarts = this.unroller.restarts;
    this.events.wraps = this.unroller.wraps;
    const misplaced = wrong.map((row) => ({
      row,
      found: because('row_time_leaps', { seconds: significant(raw[row] - raw[Math.max(0, row - 1)], 4) }),
    }));
    const order = this.putInOrder(time, new Set(wrong), same, misplaced);
    const ordered = order ? Float64Array.from(order, (row) => time[row]) : time;
    const counts = counter ? (order ? Float64Array.from(order, (row) => counter[row]) : counter) : null;
    const breaks = this.findBreaks(ordered, counts, restartRows, order);
    this.straighten(ordered, breaks);
    const gaps = this.recordGaps(ordered, breaks);
    if (ordered.length > 0) {
      this.lastTime = ordered[ordered.length - 1];
      if (counts) this.lastCounter = counts[counts.length - 1];
    }
    return { time_s: ordered, order, misplaced, gaps };
  }

  /** @returns the order of rows that makes time increase, without repeats; null where it does already */
  private putInOrder(
    time: Float64Array,
    wrong: Set<number>,
    same: (a: number, b: number) => boolean,
    misplaced: BuiltTime['misplaced'],
  ): Int32Array | null {
    const { repeats } = this.habits;
    let tidy = wrong.size === 0;
    let previous = this.lastTime;
    for (let i = 0; i < time.length && tidy; i++) {
      if (time[i] < previous || (time[i] === previous && !repeats)) tidy = false;
      previous = time[i];
    }
    if (tidy) return repeats ? this.withoutRepeats(time, same) : null;
    const rows = Array.from(time.keys()).filter((row) => !wrong.has(row));
    for (let i = 1; i < rows.length; i++) if (time[rows[i]] < time[rows[i - 1]]) this.events.out_of_order++;
    rows.sort((a, b) => time[a] - time[b] || a - b);
    const kept: number[] = [];
    let last = this.lastTime;
    for (const row of rows) {
      if (time[row] < last || (time[row] === last && !repeats)) {
        const before = kept.length > 0 ? kept[kept.length - 1] : -1;
        if (before >= 0 && time[row] === last && same(row, before)) this.events.duplicates++;
        else
          misplaced.push({
            row,
            found: time[row] === last ? because('row_time_same') : because('row_time_earlier'),
          });
        continue;
      }
      kept.push(row);
      last = time[row];
    }
    return Int32Array.from(kept);
  }

  /** Where rows share stamps, a row that repeats stamp and values of the one before is one too many, if that hardly ever happens. */
  private withoutRepeats(time: Float64Array, same: (a: number, b: number) => boolean): Int32Array | null {
    const again = new Set<number>();
    for (let i = 1; i < time.length; i++) if (time[i] === time[i - 1] && same(i, i - 1)) again.add(i);
    if (again.size === 0 || again.size > MOST_REPEATED_SHARE * time.length) return null;
    this.events.duplicates += again.size;
    return Int32Array.from(Array.from(time.keys()).filter((row) => !again.has(row)));
  }

  /** Rows before which samples are missing, with how many. */
  private findBreaks(
    time: Float64Array,
    counter: Float64Array | null,
    restartRows: Set<number>,
    order: Int32Array | null,
  ): Map<number, number | null> {
    const breaks = new Map<number, number | null>();
    const { period_s, jitter_s, repeats } = this.habits;
    const limit = Math.max(GAP_FACTOR * period_s, period_s + 6 * jitter_s);
    for (let i = 0; i < time.length; i++) {
      const inputRow = order ? order[i] : i;
      const before = i === 0 ? this.lastTime : time[i - 1];
      if (Number.isNaN(before)) continue;
      if (restartRows.has(inputRow)) {
        breaks.set(i, null);
        continue;
      }
      if (counter) {
        const lost = this.lostByCounter(i === 0 ? this.lastCounter : counter[i - 1], counter[i]);
        if (lost > 0) {
          breaks.set(i, lost);
          continue;
        }
      }
      if (!repeats && time[i] - before > limit)
        breaks.set(i, Math.max(1, Math.round((time[i] - before) / period_s) - 1));
    }
    if (repeats) for (const [row, lost] of packetGaps(time, period_s)) breaks.set(row, breaks.get(row) ?? lost);
    return breaks;
  }

  private lostByCounter(before: number, now: number): number {
    if (Number.isNaN(before) || Number.isNaN(now)) return 0;
    let step = now - before;
    if (step < 0)
      step =
        this.habits.counter_wraps.map((wrap) => step + wrap).find((wrapped) => wrapped > 0 && wrapped < 10_000) ?? 0;
    return step > 1 && step < 1e7 ? step - 1 : 0;
  }

  /** Where stamps are rounded or shared by a packet, samples are set on the even clock that agrees with every stamp. */
  private straighten(time: Float64Array, breaks: Map<number, number | null>): void {
    const { resolution_s, period_s, repeats } = this.habits;
    const edges = [0, ...[...breaks.keys()].filter((row) => row > 0).sort((a, b) => a - b), time.length];
    for (let segment = 0; segment + 1 < edges.length; segment++) {
      const from = edges[segment];
      const to = edges[segment + 1];
      if (!repeats && (to - from < 50 || resolution_s < 0.002 * period_s)) continue;
      const line = repeats ? packetLine(time, from, to, period_s) : straightenedLine(time, from, to);
      if (!repeats && line.worst > 1.01 * resolution_s) continue;
      for (let i = from; i < to; i++) time[i] = line.start + line.slope * (i - from);
    }
    // A fit moves an edge by less than one interval; order is kept all the same.
    let last = this.lastTime;
    for (let i = 0; i < time.length; i++) {
      if (time[i] <= last) time[i] = last + 1e-3 * period_s;
      last = time[i];
    }
  }

  private recordGaps(time: Float64Array, breaks: Map<number, number | null>): Gap[] {
    const gaps: Gap[] = [];
    for (let i = 0; i < time.length; i++) {
      const before = i === 0 ? this.lastTime : time[i - 1];
      if (Number.isNaN(before)) continue;
      if (breaks.has(i)) gaps.push({ start_s: before, end_s: time[i], lost_samples: breaks.get(i) ?? null });
      else {
        this.stepSum += time[i] - before;
        this.stepCount++;
      }
    }
    return gaps;
  }
}
