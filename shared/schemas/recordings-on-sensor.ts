/** How recordings that a sensor has made by itself are started, listed, fetched and cleared over the radio. */
import { type Static, Type } from 'typebox';
import { Uuid, Write } from './stream-packet.ts';

const strict = { additionalProperties: false } as const;

/**
 * Commands go to one characteristic, answers come as notifications of another. All numbers little-endian.
 *
 *   list   -> op_list                    answers: [op_list, n uint8], then n times [op_entry, id uint16, bytes uint32, packets uint32,
 *                                        start uint32: seconds since 1970, 0 where the sensor does not know]
 *   fetch  -> [op_fetch, id uint16, from uint32]   answers: [op_block, offset uint32, data ..., crc32 uint32 over offset and data]
 *                                        and at the end [op_end, id uint16, bytes uint32, crc32 uint32 over the whole recording]
 *   clear  -> [op_clear, id uint16]      answers: [op_clear, 0] for done, another number for refused
 *
 * A recording is a row of packets as they would have been sent, each with its length before it (uint16). Blocks that are
 * missing or damaged are asked for again from their offset.
 */
export const RecordingsOnSensor = Type.Object(
  {
    /** Absent: the main service. */
    service_uuid: Type.Optional(Uuid),
    control_characteristic_uuid: Uuid,
    data_characteristic_uuid: Uuid,
    /** What makes the sensor record into its own memory while it streams, and what ends that. */
    start: Type.Array(Write),
    stop: Type.Array(Write),
    op_list: Type.Integer({ minimum: 0, maximum: 255 }),
    op_entry: Type.Integer({ minimum: 0, maximum: 255 }),
    op_fetch: Type.Integer({ minimum: 0, maximum: 255 }),
    op_block: Type.Integer({ minimum: 0, maximum: 255 }),
    op_end: Type.Integer({ minimum: 0, maximum: 255 }),
    op_clear: Type.Integer({ minimum: 0, maximum: 255 }),
  },
  strict,
);
export type RecordingsOnSensor = Static<typeof RecordingsOnSensor>;
