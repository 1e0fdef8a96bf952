/** How long a least delay counts, in whole seconds: a stall shorter than this moves nothing, a slow clock is followed. */
const WINDOWS = 3;
/** Delays of three seconds in a row that agree so well are the link's own, seconds. */
const AGREE_S = 0.05;

/** Least arrival minus sensor time (by the counter) of the last seconds: what later packets are compared with. */
export class LeastLateness {
  private windows: { second: number; least_s: number }[] = [];

  begin(arrival_s: number, lateness_s: number): void {
    this.windows = [{ second: Math.floor(arrival_s), least_s: lateness_s }];
  }

  add(arrival_s: number, lateness_s: number): void {
    const second = Math.floor(arrival_s);
    const current = this.windows[this.windows.length - 1];
    if (current !== undefined && second <= current.second) current.least_s = Math.min(current.least_s, lateness_s);
    else this.windows.push({ second, least_s: lateness_s });
    if (this.windows.length > WINDOWS) this.windows.shift();
  }

  /** The counts' length has been corrected: every lateness moves by so much. */
  shift(by_s: number): void {
    for (const window of this.windows) window.least_s += by_s;
  }

  get value_s(): number {
    return Math.min(...this.windows.map((window) => window.least_s));
  }

  /** True once the link's own delay is known, and a stall at the beginning is over. */
  get known(): boolean {
    const values = this.windows.map((window) => window.least_s);
    return values.length === WINDOWS && Math.max(...values) - Math.min(...values) < AGREE_S;
  }
}
