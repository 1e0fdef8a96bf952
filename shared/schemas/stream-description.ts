/**
 * A stream description tells how one kind of sensor speaks over Bluetooth Low Energy: where its data come from, how a
 * packet is laid out, what to write to start and stop it, how to fetch what it has recorded by itself. The JSON schema of
 * such a file, and its TypeScript type. How to write one: docs of the project, 'Describe a sensor'.
 */
import { type Static, Type } from 'typebox';
import { RecordingsOnSensor } from './recordings-on-sensor.ts';
import { Packet, Uuid, Write } from './stream-packet.ts';

export { CHECKSUM_KINDS, HEADER_FIELDS, NUMBER_TYPES, RAW_CHANNELS } from './stream-packet.ts';
export type { HeaderField, NumberType, PacketLayout, RawChannel, SampleField, Write } from './stream-packet.ts';
export type { RecordingsOnSensor } from './recordings-on-sensor.ts';

export const STREAM_DESCRIPTION_FORMAT = 'stream-description/1';

const strict = { additionalProperties: false } as const;

/** Which raw axis, with sign, points along x, y and z of the block. */
const AxisMap = Type.Object(
  {
    x: Type.Enum(['+x', '-x', '+y', '-y', '+z', '-z']),
    y: Type.Enum(['+x', '-x', '+y', '-y', '+z', '-z']),
    z: Type.Enum(['+x', '-x', '+y', '-y', '+z', '-z']),
  },
  strict,
);

const RangeOption = Type.Object(
  {
    full_scale: Type.Number({ exclusiveMinimum: 0 }),
    /** One count in the unit of the quantity. */
    per_count: Type.Number({ exclusiveMinimum: 0 }),
    /** The count that means zero, where that is not 0: an unsigned 12-bit number may rest at 2048. */
    zero_count: Type.Optional(Type.Number()),
    writes: Type.Array(Write),
  },
  strict,
);

function quantity(units: string[]) {
  return Type.Object(
    { unit: Type.Enum(units), axes: AxisMap, ranges: Type.Array(RangeOption, { minItems: 1 }) },
    strict,
  );
}

const Counter = Type.Object(
  {
    counts: Type.Enum(['packets', 'samples']),
    /** What the counter does when streaming is started again: goes on, or begins anew. */
    on_start: Type.Enum(['continues', 'restarts']),
  },
  strict,
);

const TimeStamp = Type.Object(
  {
    tick_s: Type.Number({ exclusiveMinimum: 0 }),
    of: Type.Enum(['first_sample', 'last_sample']),
    /** How far the stamping clock may be off, as a fraction. */
    tolerance: Type.Number({ exclusiveMinimum: 0, maximum: 0.1 }),
    /** True where all sensors of this kind share one clock, set over the air or by a common start. */
    shared: Type.Optional(Type.Boolean()),
  },
  strict,
);

/** Packets of a characteristic that carry this byte at this place; the others are of another kind. */
const Kind = Type.Object(
  { at: Type.Integer({ minimum: 0, maximum: 255 }), value: Type.Integer({ minimum: 0, maximum: 255 }) },
  strict,
);

const FurtherStream = Type.Object(
  {
    /** Absent: the main service. */
    service_uuid: Type.Optional(Uuid),
    characteristic_uuid: Uuid,
    kind: Type.Optional(Kind),
    packet: Packet,
    counter: Type.Union([Counter, Type.Null()]),
    time_stamp: Type.Union([TimeStamp, Type.Null()]),
    /** Samples of this stream for one of the chosen rate: 0.5 where its quantity is sampled half as often. */
    rate_ratio: Type.Optional(Type.Number({ exclusiveMinimum: 0, maximum: 100 })),
  },
  strict,
);

const Battery = Type.Object(
  {
    /** Volts of an empty and of a full battery; between them the charge is taken to be in proportion. */
    empty_v: Type.Number({ exclusiveMinimum: 0 }),
    full_v: Type.Number({ exclusiveMinimum: 0 }),
    /** Volts of one count of the packet field `battery_volts`. */
    per_count_v: Type.Number({ exclusiveMinimum: 0 }),
  },
  strict,
);

const Connection = Type.Object(
  {
    /** The least MTU (bytes) that the packets need; a link that gives less is told. */
    least_mtu: Type.Optional(Type.Integer({ minimum: 23, maximum: 517 })),
    /** `without_code`: pairs by itself. `with_code`: asks for a code of six digits, `code` or one given at the sensor. */
    bonding: Type.Optional(Type.Enum(['none', 'without_code', 'with_code'])),
    code: Type.Optional(Type.String({ pattern: '^[0-9]{6}$' })),
  },
  strict,
);

export const StreamDescription = Type.Object(
  {
    format: Type.Literal(STREAM_DESCRIPTION_FORMAT),
    id: Type.String({ pattern: '^[a-z0-9][a-z0-9-]{0,39}$', description: 'Short name in lower case, unique.' }),
    name: Type.String({ minLength: 1, maxLength: 60 }),
    /** Sensors whose advertised name begins so are offered with this description. */
    advertised_name_prefix: Type.String({ minLength: 1, maxLength: 20 }),
    service_uuid: Uuid,
    data_characteristic_uuid: Uuid,
    kind: Type.Optional(Kind),
    packet: Packet,
    /** Null where packets carry none: then they must carry time stamps. */
    counter: Type.Union([Counter, Type.Null()]),
    time_stamp: Type.Union([TimeStamp, Type.Null()]),
    /** Where other quantities come in packets of their own. */
    further_streams: Type.Optional(Type.Array(FurtherStream, { minItems: 1, maxItems: 8 })),
    acc: quantity(['g', 'mps2']),
    gyr: Type.Union([quantity(['dps', 'radps']), Type.Null()]),
    rates: Type.Array(
      Type.Object({ rate_hz: Type.Number({ exclusiveMinimum: 0, maximum: 10000 }), writes: Type.Array(Write) }, strict),
      { minItems: 1 },
    ),
    /** How far the true sampling rate may lie from the nominal one, as a fraction: 0.001 is 0.1 per cent. */
    rate_tolerance: Type.Number({ exclusiveMinimum: 0, maximum: 0.1 }),
    battery: Type.Optional(Battery),
    connection: Type.Optional(Connection),
    start: Type.Array(Write),
    stop: Type.Array(Write),
    recordings: Type.Optional(RecordingsOnSensor),
    notes: Type.Optional(Type.String({ maxLength: 2000 })),
  },
  { ...strict, title: 'Stream description of a Bluetooth Low Energy sensor' },
);
export type StreamDescription = Static<typeof StreamDescription>;

/** What is chosen for one sensor among the description's rates and ranges. */
export const StreamSettings = Type.Object(
  {
    rate_hz: Type.Number({ minimum: 0, maximum: 1e6 }),
    acc_full_scale: Type.Number({ minimum: 0, maximum: 1e9 }),
    gyr_full_scale: Type.Union([Type.Number({ minimum: 0, maximum: 1e9 }), Type.Null()]),
  },
  strict,
);
export type StreamSettings = Static<typeof StreamSettings>;
