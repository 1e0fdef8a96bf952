import type { TimeHabits } from './time-habits.ts';

export interface UnrolledClock {
  /** Seconds that go on over full and restarted clocks; late rows still lie behind. */
  time: Float64Array;
  /** Rows before which the clock started again, or was set. */
  restartRows: Set<number>;
  /** Rows whose stamp cannot be right: the rows after go on where the rows before ended. */
  wrong: number[];
}

/** A backward step up to this long may be a late row; a longer one is a clock that started again. */
const LATE_ROW_S = 2;
/** A forward step beyond this is a clock that was set, not a gap. */
const CLOCK_SET_S = 6 * 3600;
const ROWS_AHEAD = 6;
const ROWS_BEHIND = 20;

/** Continues a clock that is full (midnight, 32 bit), starts again or is set, and finds single stamps that are wrong. */
export class ClockUnroller {
  restarts = 0;
  wraps = 0;
  private offset = 0;
  /** Latest raw stamp since the clock last started. */
  private latest = Number.NaN;

  constructor(private readonly habits: TimeHabits) {}

  unroll(raw: Float64Array): UnrolledClock {
    const { period_s, wraps_s } = this.habits;
    const time = new Float64Array(raw.length);
    const restartRows = new Set<number>();
    const wrong: number[] = [];
    for (let i = 0; i < raw.length; i++) {
      const step = raw[i] - this.latest;
      if (step < 0) {
        const wrap = wraps_s.find((length) => step + length >= 0 && step + length < Math.max(50 * period_s, 0.5));
        if (wrap !== undefined) {
          this.offset += wrap;
          this.wraps++;
          this.latest = raw[i];
        } else if (step < -LATE_ROW_S && this.returns(raw, i)) wrong.push(i);
        else if (step < -LATE_ROW_S || this.staysBehind(raw, i)) this.restart(raw[i], restartRows, i);
      } else if (step > CLOCK_SET_S || (step > 20 * period_s && this.returns(raw, i))) {
        if (this.returns(raw, i)) wrong.push(i);
        else this.restart(raw[i], restartRows, i);
      } else this.latest = raw[i];
      time[i] = raw[i] + this.offset;
    }
    return { time, restartRows, wrong };
  }

  /** How long the sensor was away is not known: the clock goes on one interval later, and the gap says so. */
  private restart(stamp: number, restartRows: Set<number>, row: number): void {
    this.offset += this.latest - stamp + this.habits.period_s;
    this.latest = stamp;
    this.restarts++;
    restartRows.add(row);
  }

  /** True where most of the next rows go on from the latest stamp, so that this one stands alone. */
  private returns(raw: Float64Array, row: number): boolean {
    let looked = 0;
    let back = 0;
    for (let next = row + 1; next < Math.min(raw.length, row + 1 + ROWS_AHEAD); next++) {
      looked++;
      const step = raw[next] - this.latest;
      if (step >= 0 && step < 20 * this.habits.period_s && raw[next] !== raw[row]) back++;
    }
    return looked > 0 && back > looked / 2;
  }

  /** True where many rows in a row lie behind and do not repeat stamps that were there: the clock started again. */
  private staysBehind(raw: Float64Array, row: number): boolean {
    const ahead = row + ROWS_BEHIND;
    if (ahead > raw.length) return false;
    const known = new Set(raw.subarray(0, row));
    let repeated = 0;
    for (let next = row; next < ahead; next++) {
      if (raw[next] >= this.latest || (next > row && raw[next] < raw[next - 1])) return false;
      if (known.has(raw[next])) repeated++;
    }
    return repeated < ROWS_BEHIND / 2;
  }
}
