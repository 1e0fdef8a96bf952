import type { PacketSource } from '../../../ingest/ble/sources/packet-source.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { SpeedCheck as SpeedCheckState } from '../../../shared/schemas/capture.ts';
import { type CheckPlace, SpeedCheck } from './speed-check.ts';

/** The sensors that are held as a second opinion; they are let go when the program ends. */
export class SpeedChecks {
  private readonly checks = new Map<string, SpeedCheck>();

  /** Holds a sensor, or gives the one that is held to another athlete. @throws FaultError CAPTURE_STATE */
  async add(source: PacketSource, place: CheckPlace): Promise<void> {
    if (source.explore === undefined) {
      throw new FaultError(fault('CAPTURE_STATE.cannot_explore', {}, { sensor_id: place.sensor_id }));
    }
    await this.remove(place.sensor_id);
    this.checks.set(place.sensor_id, new SpeedCheck(source, place));
  }

  async remove(sensor_id: string): Promise<void> {
    const check = this.checks.get(sensor_id);
    this.checks.delete(sensor_id);
    await check?.close();
  }

  state(athleteName: (athlete_id: number | null) => string | null): SpeedCheckState[] {
    return [...this.checks.values()].map((check) => check.state(athleteName(check.place.athlete_id)));
  }

  async close(): Promise<void> {
    await Promise.all([...this.checks.keys()].map((sensor_id) => this.remove(sensor_id)));
  }
}
