/**
 * A stream description tells how one kind of sensor speaks over Bluetooth Low Energy: where its data come from, how a
 * packet is laid out, what to write to start and stop it. The JSON schema of such a file, and its TypeScript type.
 */
import { type Static, Type } from 'typebox';

export const STREAM_DESCRIPTION_FORMAT = 'stream-description/1';

const strict = { additionalProperties: false } as const;

const Uuid = Type.String({
  pattern: '^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$',
  description: '128-bit UUID, lower case. A 16-bit number xxxx is 0000xxxx-0000-1000-8000-00805f9b34fb.',
});
const HexBytes = Type.String({ pattern: '^([0-9a-f]{2})( [0-9a-f]{2})*$', description: 'Bytes, e.g. "01 e8 03".' });

export const NUMBER_TYPES = [
  'uint8',
  'int8',
  'uint16',
  'int16',
  'uint24',
  'int24',
  'uint32',
  'int32',
  'float32',
  'float64',
] as const;
export type NumberType = (typeof NUMBER_TYPES)[number];
const NumberTypeSchema = Type.Enum([...NUMBER_TYPES]);

/** Raw channel names: what the sensor sends, before axes are mapped. */
export const RAW_CHANNELS = ['acc_x', 'acc_y', 'acc_z', 'gyr_x', 'gyr_y', 'gyr_z'] as const;
export type RawChannel = (typeof RAW_CHANNELS)[number];

const HeaderField = Type.Object(
  {
    field: Type.Enum(['counter', 'time_stamp', 'sample_count', 'battery_percent', 'skip']),
    type: NumberTypeSchema,
  },
  strict,
);

const SampleField = Type.Object(
  {
    channel: Type.Enum([...RAW_CHANNELS, 'skip']),
    type: NumberTypeSchema,
    /** Present: the packet's first sample is sent as `type`, each later one as its difference in this narrower type. */
    delta_type: Type.Optional(NumberTypeSchema),
  },
  strict,
);

/** Which raw axis, with sign, points along x, y and z of the block. */
const AxisMap = Type.Object(
  {
    x: Type.Enum(['+x', '-x', '+y', '-y', '+z', '-z']),
    y: Type.Enum(['+x', '-x', '+y', '-y', '+z', '-z']),
    z: Type.Enum(['+x', '-x', '+y', '-y', '+z', '-z']),
  },
  strict,
);

const Write = Type.Object({ characteristic_uuid: Uuid, bytes: HexBytes }, strict);

const RangeOption = Type.Object(
  {
    full_scale: Type.Number({ exclusiveMinimum: 0 }),
    /** One count in the unit of the quantity. */
    per_count: Type.Number({ exclusiveMinimum: 0 }),
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
    packet: Type.Object(
      {
        byte_order: Type.Enum(['little', 'big']),
        header: Type.Array(HeaderField),
        /** Fixed number, or how many `sample_count` or the packet's length tell. */
        samples: Type.Union([Type.Integer({ minimum: 1, maximum: 512 }), Type.Enum(['sample_count', 'rest'])]),
        /** The most samples that one packet may carry; bounds what a broken packet can claim. */
        max_samples: Type.Integer({ minimum: 1, maximum: 512 }),
        sample: Type.Array(SampleField, { minItems: 3 }),
      },
      strict,
    ),
    counter: Counter,
    time_stamp: Type.Union([TimeStamp, Type.Null()]),
    acc: quantity(['g', 'mps2']),
    gyr: Type.Union([quantity(['dps', 'radps']), Type.Null()]),
    rates: Type.Array(
      Type.Object({ rate_hz: Type.Number({ exclusiveMinimum: 0, maximum: 10000 }), writes: Type.Array(Write) }, strict),
      { minItems: 1 },
    ),
    /** How far the true sampling rate may lie from the nominal one, as a fraction: 0.001 is 0.1 per cent. */
    rate_tolerance: Type.Number({ exclusiveMinimum: 0, maximum: 0.1 }),
    start: Type.Array(Write),
    stop: Type.Array(Write),
    notes: Type.Optional(Type.String({ maxLength: 2000 })),
  },
  { ...strict, title: 'Stream description of a Bluetooth Low Energy sensor' },
);
export type StreamDescription = Static<typeof StreamDescription>;

/** What is chosen for one sensor among the description's rates and ranges. */
export const StreamSettings = Type.Object(
  {
    rate_hz: Type.Number(),
    acc_full_scale: Type.Number(),
    gyr_full_scale: Type.Union([Type.Number(), Type.Null()]),
  },
  strict,
);
export type StreamSettings = Static<typeof StreamSettings>;
