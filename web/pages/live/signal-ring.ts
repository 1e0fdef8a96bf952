import type { SignalEvent } from '../../../shared/schemas/capture.ts';

/** Seconds of signal that a strip shows. */
export const STRIP_S = 8;
const STEP_S = 0.02;
const LENGTH = Math.round(STRIP_S / STEP_S);

/** The last seconds of one sensor's signal: least and greatest norm of the acceleration every 20 ms. */
export class SignalRing {
  readonly low: (number | null)[] = new Array(LENGTH).fill(null);
  readonly high: (number | null)[] = new Array(LENGTH).fill(null);

  add({ low_mps2, high_mps2 }: SignalEvent): void {
    this.low.push(...low_mps2);
    this.high.push(...high_mps2);
    this.low.splice(0, this.low.length - LENGTH);
    this.high.splice(0, this.high.length - LENGTH);
  }

  /** Seconds before now of each place. */
  static readonly times: number[] = Array.from({ length: LENGTH }, (_, i) => (i - LENGTH + 1) * STEP_S);
}
