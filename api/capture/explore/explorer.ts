import type { PacketSource } from '../../../ingest/ble/sources/packet-source.ts';
import { wrongState } from '../recording/capture-faults.ts';
import { Exploration } from './exploration.ts';

/** The one sensor that is held to see how it speaks. */
export class Explorer {
  private held: Exploration | null = null;

  /** Holds a sensor; the one held before is let go. */
  async open(source: PacketSource, sensor_id: string): Promise<Exploration> {
    await this.end();
    this.held = await Exploration.open(source, sensor_id);
    return this.held;
  }

  /** @throws FaultError CAPTURE_STATE when no sensor is held */
  explored(): Exploration {
    if (this.held === null) throw wrongState('none_held');
    return this.held;
  }

  async end(): Promise<void> {
    const { held } = this;
    this.held = null;
    await held?.close();
  }
}
