/** What is seen of a sensor that is held only to see how it speaks. */
import { type Static, Type } from 'typebox';
import { NoticeText } from './common.ts';

const NumberOrNull = Type.Union([Type.Number(), Type.Null()]);

export const TrialState = Type.Object({
  description_id: Type.String(),
  packets: Type.Integer(),
  samples: Type.Integer(),
  lost_samples: Type.Integer(),
  unreadable_packets: Type.Integer(),
  other_packets: Type.Integer(),
  out_of_sequence_packets: Type.Integer(),
  nominal_rate_hz: Type.Number(),
  measured_rate_hz: NumberOrNull,
  battery_percent: NumberOrNull,
  /** Mean of the latest packet, block axes; at rest its norm is gravity's. */
  acc_mps2: Type.Union([Type.Array(Type.Number()), Type.Null()]),
  norm_mps2: NumberOrNull,
  silent_s: NumberOrNull,
});
export type TrialState = Static<typeof TrialState>;

export const ExplorationState = Type.Object({
  sensor_id: Type.String(),
  /** Why the link ended; empty while it holds. */
  lost: NoticeText,
  services: Type.Array(
    Type.Object({
      uuid: Type.String(),
      characteristics: Type.Array(Type.Object({ uuid: Type.String(), flags: Type.Array(Type.String()) })),
    }),
  ),
  battery_percent: NumberOrNull,
  device_information: Type.Record(Type.String(), Type.String()),
  rssi_dbm: NumberOrNull,
  mtu: NumberOrNull,
  /** The latest packets, newest first. */
  packets: Type.Array(Type.Object({ characteristic_uuid: Type.String(), hex: Type.String(), bytes: Type.Integer() })),
  packet_count: Type.Integer(),
  packets_per_s: NumberOrNull,
  trial: Type.Union([TrialState, Type.Null()]),
});
export type ExplorationState = Static<typeof ExplorationState>;
