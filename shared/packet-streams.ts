import type { PacketLayout, StreamDescription } from './schemas/stream-description.ts';

/** One kind of packet of a sensor: where it comes from, how it is laid out, what orders it in time. */
export interface PacketStream {
  service_uuid: string;
  characteristic_uuid: string;
  /** Only packets with this byte at this place are of this kind. */
  kind?: { at: number; value: number };
  packet: PacketLayout;
  counter: StreamDescription['counter'];
  time_stamp: StreamDescription['time_stamp'];
  /** Samples for one of the chosen rate. */
  rate_ratio?: number;
}

/** All kinds of packet that a sensor of this description sends, the main one first. */
export function packetStreams(description: StreamDescription): PacketStream[] {
  const { service_uuid, data_characteristic_uuid, kind, packet, counter, time_stamp } = description;
  return [
    { service_uuid, characteristic_uuid: data_characteristic_uuid, kind, packet, counter, time_stamp },
    ...(description.further_streams ?? []).map((stream) => ({ service_uuid, ...stream })),
  ];
}

/** The characteristics that packets come from, each once; a packet's `source` is its place in this list. */
export function dataCharacteristics(
  description: StreamDescription,
): { service_uuid: string; characteristic_uuid: string }[] {
  const all = new Map(
    packetStreams(description).map(({ service_uuid, characteristic_uuid }) => [
      `${service_uuid}/${characteristic_uuid}`,
      { service_uuid, characteristic_uuid },
    ]),
  );
  return [...all.values()];
}
