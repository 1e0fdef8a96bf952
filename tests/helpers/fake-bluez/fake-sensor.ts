import type { Disturbances, SimulatedSensorOptions } from './sensor-options.ts';

/** What the fake radio needs of a sensor, whatever is inside. */
export interface FakeSensor {
  readonly options: SimulatedSensorOptions;
  disturbances: Disturbances;
  /** @returns false when the sensor does not know such a write */
  write(hex: string): boolean | Promise<boolean>;
  linkLost(): void;
  /** Packets to deliver now, by data characteristic; `linked` false lets the sensor sample on without sending. */
  due(linked: boolean): { source: number; bytes: Uint8Array }[];
  /** Answers to writes. */
  answers(): { characteristic_uuid: string; bytes: Uint8Array }[];
  report(): {
    first_sample: number | null;
    end_sample: number;
    delivered_packets: number;
    dropped_packets: number;
    writes: string[];
    last_delivery_s: number;
    rate_hz: number;
  };
  close(): void;
}
