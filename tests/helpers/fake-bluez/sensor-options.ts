import type { StreamDescription, StreamSettings } from '../../../shared/schemas/stream-description.ts';

export interface Disturbances {
  /** Fraction of packets that never arrive. */
  drop?: number;
  /** Fraction of packets sent twice. */
  repeat?: number;
  /** True shuffles the packets that are due together. */
  reorder?: boolean;
  /** Packets are held and delivered together this often, milliseconds. */
  burst_ms?: number;
  /** Deliver nothing for this long from now on, then all of it. */
  stall_ms?: number;
}

export interface SimulatedSensorOptions {
  address: string;
  name: string;
  side?: 'left' | 'right';
  description: StreamDescription;
  settings?: StreamSettings;
  /** Sensor seconds per host second, minus 1. */
  drift?: number;
  first_counter?: number;
  battery_percent?: number;
  rssi_dbm?: number;
  disturbances?: Disturbances;
  /** Ready packets to send instead of numbered samples, at true speed, all sensors in step. */
  recorded?: { bytes: string; due_s: number }[];
  /** Seconds from the first start of any sensor to the beginning of the recorded streams; 2 without it. */
  recorded_delay_s?: number;
  /** Sends without being asked to start, as standard services do. */
  unasked?: boolean;
  /** Code that it asks for when it is bonded. */
  bond_code?: string;
  /**
   * The reference sensor's own program, fed with these samples in its counts, at true speed: from its first start on; or, where it `stands`,
   * from when it is first told to record, with somebody who stands still before and after.
   */
  core?: { binary: string; samples: number[][]; stands?: boolean };
}
