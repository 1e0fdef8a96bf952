import type { SampleBlock } from '../../../shared/sample-block.ts';
import type { Side } from '../../../shared/words.ts';
import { type FileStart, SensorAssembler, type SensorPlan, type SensorSummary } from './assemble-sensor.ts';
import type { TimeHabits } from '../time/time-habits.ts';
import type { RowBatch } from './row-batch.ts';
import { joinBlocks } from './join-blocks.ts';
import type { RejectedRows } from './rejected-rows.ts';

const AXES = ['x', 'y', 'z'] as const;
/** Two rates further apart than this many intervals have a gap between them. */
const GAP_FACTOR = 1.7;
/** Stamps are rounded and then set on an even clock: nearer than this part of an interval is the same instant. */
const SAME_INSTANT = 0.1;
/** A stream this far ahead of the other is no weave but two tables one below the other: more is not held. */
const MOST_WAITING = 2_000_000;

/**
 * A sensor whose acceleration and angular rate stand in rows of their own. Each stream gets its own time (order, gaps, jitter);
 * the rate is then brought to the acceleration's instants along the straight line between its two neighbours. Where these are
 * further apart than an interval, or there is none on one side, the rate is missing (NaN): nothing is drawn across a gap.
 */
export class WovenSensor {
  readonly plan: SensorPlan;
  readonly time: SensorAssembler['time'];
  readonly #acc: SensorAssembler;
  readonly #gyr: SensorAssembler;
  readonly #rejected: RejectedRows;
  readonly #gyrPeriod_s: number;
  /** Acceleration whose rates are not yet known, in order. */
  #waiting: SampleBlock[] = [];
  #waitingSamples = 0;
  #rates: Rates = { time_s: [], axes: [[], [], []] };

  constructor(plan: SensorPlan, gyrHabits: TimeHabits, rejected: RejectedRows, file: FileStart) {
    this.plan = plan;
    this.#rejected = rejected;
    this.#gyrPeriod_s = gyrHabits.period_s;
    this.#acc = new SensorAssembler({ ...plan, channels: plan.channels.slice(0, 3), gyr: null }, rejected, file);
    const own = { ...plan, channels: plan.channels.slice(3), counter: null, plus: [], habits: gyrHabits };
    // The rate's own assembler hands its three axes out as its first three columns.
    this.#gyr = new SensorAssembler({ ...own, acc: plan.gyr!, gyr: null, rates_only: true }, rejected, { ...file });
    this.time = this.#acc.time;
  }

  get samples(): number {
    return this.#acc.samples;
  }

  *take(batch: RowBatch, mine: ((row: number) => boolean) | null): Generator<SampleBlock> {
    const of = (quantity: number) => (row: number) => (mine?.(row) ?? true) && (batch.quantity[row] & quantity) !== 0;
    for (const block of this.#gyr.take(batch, of(2))) this.#addRates(block);
    for (const block of this.#acc.take(batch, of(1))) this.#add(block);
    yield* this.#ready();
  }

  /** The rest as a last block; null when there is none. */
  flush(): SampleBlock | null {
    const rates = this.#gyr.flush();
    if (rates) this.#addRates(rates);
    const last = this.#acc.flush();
    if (last) this.#add(last);
    const blocks = this.#waiting.map((block) => this.#withRates(block));
    this.#waiting = [];
    return blocks.length === 0 ? null : joinBlocks(blocks);
  }

  summary(): SensorSummary {
    return { ...this.#acc.summary(), gyr_range_radps: this.#gyr.summary().gyr_range_radps };
  }

  get side(): Side {
    return this.plan.side;
  }

  #add(block: SampleBlock): void {
    this.#waiting.push(block);
    this.#waitingSamples += block.time_s.length;
    if (this.#waitingSamples + this.#rates.time_s.length > MOST_WAITING) throw this.#rejected.streamsApart();
  }

  /** Rates on the acceleration's clock: both streams' stamps come from one column. */
  #addRates(block: SampleBlock): void {
    for (let i = 0; i < block.time_s.length; i++) this.#rates.time_s.push(block.time_s[i]);
    AXES.forEach((axis, k) => {
      for (const value of block.acc_mps2[axis]) this.#rates.axes[k].push(value);
    });
    if (this.#waitingSamples + this.#rates.time_s.length > MOST_WAITING) throw this.#rejected.streamsApart();
  }

  /** Blocks of acceleration that end before the last known rate. */
  *#ready(): Generator<SampleBlock> {
    const known_s = (this.#rates.time_s.at(-1) ?? Number.NEGATIVE_INFINITY) + this.#later_s();
    while (this.#waiting.length > 0 && this.#waiting[0].time_s.at(-1)! <= known_s) {
      const block = this.#waiting.shift()!;
      this.#waitingSamples -= block.time_s.length;
      yield this.#withRates(block);
    }
  }

  /** How much later than the acceleration the rate's first sample came. */
  #later_s(): number {
    return (this.#gyr.clock_start_s ?? 0) - (this.#acc.clock_start_s ?? 0);
  }

  #withRates(block: SampleBlock): SampleBlock {
    const { time_s, axes } = this.#rates;
    const later_s = this.#later_s();
    const n = block.time_s.length;
    const gyr = AXES.map(() => new Float64Array(n).fill(Number.NaN));
    let next = 0;
    for (let i = 0; i < n; i++) {
      const at = block.time_s[i] - later_s;
      while (next < time_s.length && time_s[next] < at) next++;
      const same = [next, next - 1].find((n) => Math.abs(time_s[n] - at) <= SAME_INSTANT * this.#gyrPeriod_s);
      const ends = next === 0 || next === time_s.length;
      if (ends && same === undefined) continue;
      if (ends || time_s[next] === at) for (let k = 0; k < 3; k++) gyr[k][i] = axes[k][same ?? next];
      else if (next > 0 && time_s[next] - time_s[next - 1] <= GAP_FACTOR * this.#gyrPeriod_s) {
        const part = (at - time_s[next - 1]) / (time_s[next] - time_s[next - 1]);
        for (let k = 0; k < 3; k++) gyr[k][i] = axes[k][next - 1] + part * (axes[k][next] - axes[k][next - 1]);
      }
    }
    // The rate before the next acceleration may still be needed.
    const used = Math.max(0, next - 2);
    time_s.splice(0, used);
    for (const axis of axes) axis.splice(0, used);
    const gyr_range_radps = this.#gyr.summary().gyr_range_radps;
    return { ...block, gyr_radps: { x: gyr[0], y: gyr[1], z: gyr[2] }, gyr_range_radps };
  }
}

interface Rates {
  time_s: number[];
  axes: [number[], number[], number[]];
}
