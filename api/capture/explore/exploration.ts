import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { checkDescription } from '../../../ingest/ble/description/read-stream-description.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { hostTime } from '../../../ingest/ble/sources/host-clock.ts';
import type { ExploredSensor, PacketSource } from '../../../ingest/ble/sources/packet-source.ts';
import { type Notice, SILENT } from '../../../shared/notice.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import { dataCharacteristics } from '../../../shared/packet-streams.ts';
import type { ExplorationState, TrialState } from '../../../shared/schemas/exploration.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { streamWrites, toHex } from '../../../shared/stream-writes.ts';

const SHOWN_PACKETS = 12;

interface Trial {
  description: StreamDescription;
  assembler: StreamAssembler;
  /** Mean acceleration of the latest packets, block axes. */
  latest: [number, number, number] | null;
}

/** One sensor held only to see how it speaks: its services, its packets as they come, and a description tried on them. */
export class Exploration {
  readonly sensor_id: string;
  private readonly sensor: ExploredSensor;
  private readonly subscribed = new Set<string>();
  private packets: ExplorationState['packets'] = [];
  private count = 0;
  private first_s: number | null = null;
  private last_s = 0;
  private trial: Trial | null = null;
  private lost: Notice = SILENT;

  static async open(source: PacketSource, sensor_id: string): Promise<Exploration> {
    if (source.explore === undefined) {
      throw new FaultError(fault('CAPTURE_STATE.cannot_explore', {}, { sensor_id }));
    }
    const held: { made: Exploration | null } = { made: null };
    const sensor = await source.explore(sensor_id, (reason) => {
      if (held.made !== null) held.made.lost = reason;
    });
    held.made = new Exploration(sensor_id, sensor);
    return held.made;
  }

  private constructor(sensor_id: string, sensor: ExploredSensor) {
    this.sensor_id = sensor_id;
    this.sensor = sensor;
  }

  state(): ExplorationState {
    const seconds = this.first_s === null ? 0 : this.last_s - this.first_s;
    return {
      sensor_id: this.sensor_id,
      lost: this.lost,
      services: this.sensor.services,
      ...this.sensor.information,
      packets: this.packets,
      packet_count: this.count,
      packets_per_s: seconds > 0 ? (this.count - 1) / seconds : null,
      trial: this.trialState(),
    };
  }

  async listen(service_uuid: string, characteristic_uuid: string): Promise<void> {
    const source = `${service_uuid}/${characteristic_uuid}`;
    if (this.subscribed.has(source)) return;
    this.subscribed.add(source);
    await this.sensor.subscribe(service_uuid, characteristic_uuid, (bytes, arrival_s) => {
      this.take(characteristic_uuid, bytes, arrival_s);
    });
  }

  /** Writes a description's start, and decodes by it from now on. @throws FaultError STREAM_DESCRIPTION_INVALID */
  async try(text: string): Promise<void> {
    const { description, faults } = checkDescription(text);
    if (description === null) {
      const remarks = faults.map(({ field, words }) => ({ field, words }));
      throw new FaultError(fault('STREAM_DESCRIPTION_INVALID.tried', { faults: remarks }, { field: faults[0].field }));
    }
    const settings = defaultSettings(description);
    this.trial = { description, assembler: new StreamAssembler(description, settings), latest: null };
    for (const { service_uuid, characteristic_uuid } of dataCharacteristics(description)) {
      await this.listen(service_uuid, characteristic_uuid);
    }
    const { set_up, start } = streamWrites(description, settings);
    await this.sensor.write([...set_up, ...start]);
  }

  async close(): Promise<void> {
    if (this.trial !== null) {
      const { description } = this.trial;
      await this.sensor.write(streamWrites(description, defaultSettings(description)).stop).catch(() => {});
    }
    await this.sensor.close();
  }

  private take(characteristic_uuid: string, bytes: Uint8Array, arrival_s: number): void {
    this.first_s ??= arrival_s;
    this.last_s = arrival_s;
    this.count++;
    this.packets = [{ characteristic_uuid, hex: toHex(bytes), bytes: bytes.length }, ...this.packets].slice(
      0,
      SHOWN_PACKETS,
    );
    const { trial } = this;
    if (trial === null) return;
    const source = dataCharacteristics(trial.description).findIndex(
      (one) => one.characteristic_uuid === characteristic_uuid,
    );
    if (source < 0) return;
    const packet = trial.assembler.add(bytes, arrival_s, source);
    if (packet === null || packet.channels[0].length === 0) return;
    const mean = (column: Float64Array) => column.reduce((sum, value) => sum + value, 0) / column.length;
    trial.latest = [mean(packet.channels[0]), mean(packet.channels[1]), mean(packet.channels[2])];
  }

  private trialState(): TrialState | null {
    if (this.trial === null) return null;
    const { assembler, latest, description } = this.trial;
    const { counts } = assembler;
    return {
      description_id: description.id,
      ...counts,
      nominal_rate_hz: assembler.settings.rate_hz,
      measured_rate_hz: assembler.measuredRate()?.rate_hz ?? null,
      battery_percent: assembler.battery_percent,
      acc_mps2: latest,
      norm_mps2: latest === null ? null : Math.hypot(...latest),
      silent_s: this.first_s === null ? null : hostTime() - this.last_s,
    };
  }
}
