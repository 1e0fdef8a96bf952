import { because } from '../../../shared/reason.ts';
import { significant } from '../columns/significant.ts';
import type { AxisTriple } from '../../../shared/schemas/layout.ts';
import type { AxisColumns, Gap, SampleBlock } from '../../../shared/sample-block.ts';
import type { Side } from '../../../shared/words.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { utc, utcSeconds } from '../../utc.ts';
import { TimeBuilder } from '../time/build-time.ts';
import type { TimeHabits } from '../time/time-habits.ts';
import type { RowBatch } from './row-batch.ts';
import { hardlyTurned } from '../motion/hardly-turned.ts';
import { findFilledRows, GapsOfFilledRows } from './filled-rows.ts';
import { FlatTop, fullScale } from './flat-tops.ts';
import type { RejectedRows } from './rejected-rows.ts';

/** No sensor that is sold reads more (400 g, 8000 deg/s; 'common practice'): such a value is left out and listed. */
const MOST_ACC_MPS2 = 4000;
const MOST_GYR_RADPS = 140;
/** Fewer samples may be alike by chance. */
const FEWEST_TO_JUDGE = 50;
/** Rows that a block holds: 0.5 MB a column. */
export const BLOCK_ROWS = 65_536;

export interface SensorPlan {
  /** Position in the layout's list of sensors. */
  index: number;
  side: Side;
  /** Positions in `RowBatch.channels`: acc x y z, then gyr x y z where there is a gyroscope. */
  channels: number[];
  /** Positions of what is added to the acceleration's axes; none as a rule. */
  plus: number[];
  counter: number | null;
  acc: AxisTriple;
  gyr: AxisTriple | null;
  /** Seconds a unit of raw time; 1 where time was text. */
  seconds_per_unit: number;
  /** Set where rows carry no time: they follow each other at this rate. */
  rate_hz: number | null;
  /** Seconds from 1970 to the clock's zero; null where it tells no date. */
  epoch_s: number | null;
  habits: TimeHabits;
  /** Those of the angular rate, where it stands in rows of its own. */
  gyr_habits: TimeHabits | null;
  /** True for the angular rate alone, of a sensor whose quantities stand in rows of their own: `acc` is then its scale. */
  rates_only?: boolean;
}

/** When a file starts, as its preamble says. */
export interface FileStart {
  start_utc: string | null;
  start_utc_u_s: number;
  /** Raw time of the file's first row, whichever sensor's; NaN until it was read. */
  first_raw: number;
}

/** What is known of a sensor once all of it was read. */
export interface SensorSummary {
  samples: number;
  sampling_rate_hz: number;
  acc_range_mps2: number | null;
  gyr_range_radps: number | null;
  gaps: Gap[];
}

/** Collects the rows of one sensor and hands them out as blocks in SI units. */
export class SensorAssembler {
  readonly time: TimeBuilder;
  readonly gaps: Gap[] = [];
  samples = 0;
  /** Rows taken out because the logger had filled them in. */
  filled_rows = 0;
  /** Share of rows that repeat the one before, where the sensor was slower than the file; else 0. */
  slower_share = 0;
  start_utc: string | null;
  /** The source's own time of the first sample, seconds. */
  clock_start_s: number | null = null;
  private readonly columns: Float64Array[];
  private readonly rawTime = new Float64Array(BLOCK_ROWS);
  private readonly lines = new Float64Array(BLOCK_ROWS);
  private filled = 0;
  private firstRaw = Number.NaN;
  private firstTime = Number.NaN;
  private rowsSeen = 0;
  private readonly tops: FlatTop[];
  private readonly gapsOfFilled = new GapsOfFilledRows();

  constructor(
    readonly plan: SensorPlan,
    private readonly rejected: RejectedRows,
    /** The file's start as its preamble has it, for its first row; sensors of one file share it. */
    private readonly file: FileStart,
  ) {
    this.start_utc = file.start_utc;
    this.time = new TimeBuilder(plan.habits);
    this.columns = Array.from(
      { length: plan.channels.length + (plan.counter === null ? 0 : 1) + plan.plus.length },
      () => new Float64Array(BLOCK_ROWS),
    );
    this.tops = plan.channels.map(() => new FlatTop());
  }

  /**
   * Takes the rows of `batch` that belong to this sensor, and yields every block that became full.
   * @param mine tells which rows do; null where all do
   */
  *take(batch: RowBatch, mine: ((row: number) => boolean) | null): Generator<SampleBlock> {
    const { channels, counter, plus } = this.plan;
    const sources = [...channels, ...(counter === null ? [] : [counter]), ...plus];
    if (!mine) {
      yield* this.takeAll(batch, sources);
      return;
    }
    for (let row = 0; row < batch.rows; row++) {
      if (!mine(row)) continue;
      const at = this.filled++;
      for (let column = 0; column < sources.length; column++)
        this.columns[column][at] = batch.channels[sources[column]][row];
      this.lines[at] = batch.lines[row];
      this.rawTime[at] = this.seconds(batch.time[row], at);
      if (this.filled === BLOCK_ROWS) {
        const block = this.flush();
        if (block) yield block;
      }
    }
  }

  /** The same where every row belongs to this sensor: columns are copied in one go. */
  private *takeAll(batch: RowBatch, sources: number[]): Generator<SampleBlock> {
    for (let row = 0; row < batch.rows; ) {
      const n = Math.min(batch.rows - row, BLOCK_ROWS - this.filled);
      const at = this.filled;
      for (let column = 0; column < sources.length; column++) {
        this.columns[column].set(batch.channels[sources[column]].subarray(row, row + n), at);
      }
      this.lines.set(batch.lines.subarray(row, row + n), at);
      for (let i = 0; i < n; i++) this.rawTime[at + i] = this.seconds(batch.time[row + i], at + i);
      this.filled += n;
      row += n;
      if (this.filled === BLOCK_ROWS) {
        const block = this.flush();
        if (block) yield block;
      }
    }
  }

  /** The rest as a last block; null when there is none. */
  flush(): SampleBlock | null {
    const filled = this.filledRows(this.filled);
    const n = filled ? this.leaveOutTimeless(this.filled, filled) : this.filled;
    this.filled = 0;
    if (n === 0) return null;
    const { plan } = this;
    const counter = plan.counter === null ? null : this.columns[plan.channels.length].subarray(0, n);
    const isFilled = (row: number) => filled?.[row] === 1;
    const everyRow = this.time.build(
      this.rawTime.slice(0, n),
      counter,
      (a, b) =>
        !isFilled(a) &&
        !isFilled(b) &&
        // A row that came twice may have been counted twice.
        this.columns.every((column, at) => this.isCounter(at) || Object.is(column[a], column[b])),
    );
    for (const { row, found } of everyRow.misplaced)
      this.rejected.addAt(this.lines[row], 'time', found, because('row_later_time'));
    // Rows that were filled in still count: only with them does every row keep its place within its packet.
    const built = this.gapsOfFilled.leaveOut(everyRow, filled);
    const rows = built.order;
    const kept = built.time_s.length;
    if (kept === 0) return null;
    if (Number.isNaN(this.firstTime)) this.firstTime = built.time_s[0];
    // A fit may move the first stamp: the recording still starts at zero.
    for (let i = 0; i < kept; i++) built.time_s[i] -= this.firstTime;
    const gaps = built.gaps.map((gap) => ({
      ...gap,
      start_s: gap.start_s - this.firstTime,
      end_s: gap.end_s - this.firstTime,
    }));
    this.gaps.push(...gaps);
    const beyond = new Set<number>();
    const scaled = plan.channels.map((_channel, index) => {
      const triple = index < 3 ? plan.acc : plan.gyr!;
      const factor = triple.to_si * triple.signs[index % 3];
      const source = this.columns[index];
      const added = index < plan.plus.length ? this.columns[this.columns.length - plan.plus.length + index] : null;
      const out = new Float64Array(kept);
      const most = this.isAcceleration(index) ? MOST_ACC_MPS2 : MOST_GYR_RADPS;
      for (let i = 0; i < kept; i++) {
        const row = rows ? rows[i] : i;
        out[i] = (added ? source[row] + added[row] : source[row]) * factor;
        if (Math.abs(out[i]) > most) out[i] = this.setAside(row, index, out[i], beyond);
      }
      this.tops[index].watch(out);
      return out;
    });
    this.samples += kept;
    return {
      ...this.header(),
      time_s: built.time_s,
      acc_mps2: axes(scaled, 0),
      gyr_radps: plan.gyr ? axes(scaled, 3) : null,
      gaps,
    };
  }

  /** Which of the first n rows the logger filled in for lost ones; null where none. */
  private filledRows(n: number): Uint8Array | null {
    const { plan } = this;
    const channels = this.columns.slice(0, plan.channels.length);
    const to_si = channels.map((_column, index) => (index < 3 ? plan.acc : plan.gyr!).to_si);
    const found = plan.rates_only || plan.gyr_habits ? null : findFilledRows(channels, n, to_si);
    if (!found) return null;
    this.slower_share = Math.max(this.slower_share, found.slower_share);
    this.filled_rows += found.count;
    return found.count > 0 ? found.filled : null;
  }

  /** Filled rows whose stamp or count was filled in as well say nothing at all. @returns the rows that stay */
  private leaveOutTimeless(n: number, filled: Uint8Array): number {
    const counter = this.plan.counter === null ? null : this.columns[this.plan.channels.length];
    let kept = 0;
    for (let row = 0; row < n; row++) {
      const timeless = kept > 0 && (this.rawTime[row] < this.rawTime[kept - 1] || counter?.[row] === 0);
      if (filled[row] === 1 && timeless) continue;
      for (const column of this.columns) column[kept] = column[row];
      this.rawTime[kept] = this.rawTime[row];
      this.lines[kept] = this.lines[row];
      filled[kept++] = filled[row];
    }
    return kept;
  }

  /** Lists a value that no sensor reads, each row once, and leaves it out. */
  private setAside(row: number, index: number, value: number, beyond: Set<number>): number {
    if (beyond.has(row)) return Number.NaN;
    beyond.add(row);
    const [quantity, unit, most] = this.isAcceleration(index)
      ? (['acceleration', 'm/s2', MOST_ACC_MPS2] as const)
      : (['angular rate', 'rad/s', MOST_GYR_RADPS] as const);
    const found = because('row_beyond', { value: significant(value, 4), unit });
    const expected = because('row_at_most', { most, unit });
    this.rejected.addAt(this.lines[row], `${quantity} ${'xyz'[index % 3]}`, found, expected);
    return Number.NaN;
  }

  private isCounter(column: number): boolean {
    return this.plan.counter !== null && column === this.plan.channels.length;
  }

  private isAcceleration(index: number): boolean {
    return index < 3 && !this.plan.rates_only;
  }

  /** Axes that gave one value in every row, as `acceleration z`. */
  stuckAxes(): string[] {
    if (this.samples < FEWEST_TO_JUDGE) return [];
    return this.tops.flatMap((top, index) =>
      top.isFlat ? [`${this.isAcceleration(index) ? 'acceleration' : 'angular rate'} ${'xyz'[index % 3]}`] : [],
    );
  }

  /** The greatest acceleration, g, and angular rate, deg/s, of a sensor that was shaken hard and hardly turned; null of any other. */
  hardlyTurned(): { acc_g: number; gyr_dps: number } | null {
    if (this.plan.rates_only || this.tops.length < 6) return null;
    const most = (tops: readonly FlatTop[]): number => Math.max(...tops.map(({ largest }) => largest));
    const acc_g = most(this.tops.slice(0, 3)) / STANDARD_GRAVITY_MPS2;
    const gyr_dps = most(this.tops.slice(3, 6)) / RADIANS_PER_DEGREE;
    return hardlyTurned(acc_g, gyr_dps) ? { acc_g, gyr_dps } : null;
  }

  summary(): SensorSummary {
    const { sampling_rate_hz, acc_range_mps2, gyr_range_radps } = this.header();
    return { samples: this.samples, sampling_rate_hz, acc_range_mps2, gyr_range_radps, gaps: this.gaps };
  }

  private header() {
    const rates = this.plan.rates_only ? this.tops : this.tops.slice(3, 6);
    return {
      start_utc: this.start_utc,
      ...(this.plan.epoch_s === null && this.start_utc !== null ? { start_utc_u_s: this.file.start_utc_u_s } : {}),
      clock_start_s: this.clock_start_s,
      sampling_rate_hz: this.time.rate(),
      acc_range_mps2: this.plan.rates_only ? null : fullScale(this.tops.slice(0, 3), 'acc', STANDARD_GRAVITY_MPS2),
      gyr_range_radps: rates.length > 0 ? fullScale(rates, 'gyr', RADIANS_PER_DEGREE) : null,
    };
  }

  private seconds(raw: number, at: number): number {
    const { plan } = this;
    if (plan.rate_hz !== null) {
      // A counter shows the rows that were lost; without one, rows simply follow each other.
      const row = plan.counter === null ? this.rowsSeen++ : this.countedRow(at);
      return row / plan.rate_hz;
    }
    if (Number.isNaN(this.firstRaw)) {
      this.firstRaw = raw;
      this.clock_start_s = raw * plan.seconds_per_unit;
      if (Number.isNaN(this.file.first_raw)) this.file.first_raw = raw;
      const later_s = (raw - this.file.first_raw) * plan.seconds_per_unit;
      if (this.file.start_utc !== null && later_s > 0) this.start_utc = utc(utcSeconds(this.file.start_utc) + later_s);
      // A count of days is a double whose last digit is up to 40 us: what lies below tells nothing.
      const digits = plan.seconds_per_unit >= 60 ? 1e4 : 1e6;
      if (plan.epoch_s !== null)
        this.start_utc = utc(Math.round((this.clock_start_s + plan.epoch_s) * digits) / digits);
    }
    return (raw - this.firstRaw) * plan.seconds_per_unit;
  }

  private lastCount = Number.NaN;
  private countedRow(at: number): number {
    const count = this.columns[this.plan.channels.length][at];
    const step = count - this.lastCount;
    this.rowsSeen += Number.isNaN(step) ? 0 : step > 0 && step < 1e6 ? step : 1;
    this.lastCount = count;
    return this.rowsSeen;
  }
}

function axes(columns: Float64Array[], from: number): AxisColumns {
  return { x: columns[from], y: columns[from + 1], z: columns[from + 2] };
}
