import type { DecodedPacket } from '../../../ingest/ble/packets/decode-packet.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';

/** A tap with the finger on a standing shoe: common practice, 2 to 10 g for some 10 ms. */
const TAP_MPS2 = 15;
const QUIET_MPS2 = 3;
const QUIET_S = 0.5;
/** More than walking's usual 1 to 2 g at the foot: only then is it worth looking for contacts. */
export const VIGOROUS_MPS2 = 20;

/** Cheap watch on one sensor's packets: was it tapped, is it moving fast? */
export class Movement {
  private readonly rate_hz: number;
  private quiet_samples = 0;
  /** Host time of the last tap and of the last vigorous movement; null when none was. */
  tapped_s: number | null = null;
  vigorous_s: number | null = null;

  constructor(rate_hz: number) {
    this.rate_hz = rate_hz;
  }

  add({ channels: [x, y, z] }: DecodedPacket, arrival_s: number): void {
    for (let i = 0; i < x.length; i++) {
      const off = Math.abs(Math.hypot(x[i], y[i], z[i]) - STANDARD_GRAVITY_MPS2);
      if (off > TAP_MPS2 && this.quiet_samples >= QUIET_S * this.rate_hz) this.tapped_s = arrival_s;
      if (off > VIGOROUS_MPS2) this.vigorous_s = arrival_s;
      this.quiet_samples = off < QUIET_MPS2 ? this.quiet_samples + 1 : 0;
    }
  }
}
