import type { DecodedPacket } from '../../../ingest/ble/packets/decode-packet.ts';
import type { SignalEvent } from '../../../shared/schemas/capture.ts';

/** Length of one stretch of the strip, seconds: 50 points a second. */
const STRETCH_S = 0.02;
/** Stretches kept for the next event: 2 s. */
const LIMIT = 100;

/** Least and greatest norm of the acceleration in each 20 ms, for drawing. */
export class SignalStrip {
  private readonly samples_per_stretch: number;
  private low: number[] = [];
  private high: number[] = [];
  private current = { low: Number.POSITIVE_INFINITY, high: 0, samples: 0 };

  constructor(rate_hz: number) {
    this.samples_per_stretch = Math.max(1, Math.round(rate_hz * STRETCH_S));
  }

  add({ channels: [x, y, z] }: DecodedPacket): void {
    for (let i = 0; i < x.length; i++) {
      const norm = Math.hypot(x[i], y[i], z[i]);
      this.current.low = Math.min(this.current.low, norm);
      this.current.high = Math.max(this.current.high, norm);
      if (++this.current.samples < this.samples_per_stretch) continue;
      this.low.push(round(this.current.low));
      this.high.push(round(this.current.high));
      this.current = { low: Number.POSITIVE_INFINITY, high: 0, samples: 0 };
    }
    if (this.low.length > LIMIT) {
      this.low = this.low.slice(-LIMIT);
      this.high = this.high.slice(-LIMIT);
    }
  }

  /** Takes what has come since the last call. */
  take(sensor_id: string, now_s: number): SignalEvent | null {
    if (this.low.length === 0) return null;
    const event = {
      sensor_id,
      from_s: now_s - this.low.length * STRETCH_S,
      step_s: STRETCH_S,
      low_mps2: this.low,
      high_mps2: this.high,
    };
    this.low = [];
    this.high = [];
    return event;
  }
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
