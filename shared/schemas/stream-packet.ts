/** The parts of a stream description that lay out packets and writes. */
import { type Static, Type } from 'typebox';

const strict = { additionalProperties: false } as const;

export const Uuid = Type.String({
  pattern: '^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$',
  description: '128-bit UUID, lower case. A 16-bit number xxxx is 0000xxxx-0000-1000-8000-00805f9b34fb.',
});
export const HexBytes = Type.String({
  pattern: '^([0-9a-f]{2})( [0-9a-f]{2})*$',
  description: 'Bytes, e.g. "01 e8 03".',
});
export const ByteOrder = Type.Enum(['little', 'big']);

/** Types of 4 and 12 bits are packed without a pause: two numbers of 12 bits are three bytes. */
export const NUMBER_TYPES = [
  'uint4',
  'uint8',
  'int8',
  'uint12',
  'int12',
  'uint16',
  'int16',
  'uint24',
  'int24',
  'uint32',
  'int32',
  'uint64',
  'int64',
  'float32',
  'float64',
] as const;
export type NumberType = (typeof NUMBER_TYPES)[number];
export const NumberTypeSchema = Type.Enum([...NUMBER_TYPES]);

/** Raw channel names: what the sensor sends, before axes are mapped. */
export const RAW_CHANNELS = ['acc_x', 'acc_y', 'acc_z', 'gyr_x', 'gyr_y', 'gyr_z'] as const;
export type RawChannel = (typeof RAW_CHANNELS)[number];

export const HEADER_FIELDS = [
  'counter',
  'time_stamp',
  'sample_count',
  'battery_percent',
  'battery_volts',
  'skip',
] as const;

const HeaderField = Type.Object(
  {
    field: Type.Enum([...HEADER_FIELDS]),
    type: NumberTypeSchema,
    /** Absent: the packet's. */
    byte_order: Type.Optional(ByteOrder),
    /** So many of them, one after the other; for `skip` only. */
    times: Type.Optional(Type.Integer({ minimum: 1, maximum: 512 })),
  },
  strict,
);
export type HeaderField = Static<typeof HeaderField>;

const SampleField = Type.Object(
  {
    channel: Type.Enum([...RAW_CHANNELS, 'skip']),
    type: NumberTypeSchema,
    byte_order: Type.Optional(ByteOrder),
    /** Present: the packet's first sample is sent as `type`, each later one as its difference in this narrower type. */
    delta_type: Type.Optional(NumberTypeSchema),
  },
  strict,
);
export type SampleField = Static<typeof SampleField>;

export const CHECKSUM_KINDS = ['sum8', 'xor8', 'crc8', 'crc16_ccitt', 'crc16_modbus', 'crc32'] as const;

const Checksum = Type.Object(
  {
    kind: Type.Enum([...CHECKSUM_KINDS]),
    /** Bytes at the packet's beginning that it does not cover. */
    skips: Type.Optional(Type.Integer({ minimum: 0, maximum: 64 })),
    byte_order: Type.Optional(ByteOrder),
  },
  { ...strict, description: 'The last bytes of the packet, over all before them.' },
);

export const Packet = Type.Object(
  {
    byte_order: ByteOrder,
    header: Type.Array(HeaderField),
    /** Fixed number, or how many `sample_count` or the packet's length tell. */
    samples: Type.Union([Type.Integer({ minimum: 1, maximum: 512 }), Type.Enum(['sample_count', 'rest'])]),
    /** The most samples that one packet may carry; bounds what a broken packet can claim. */
    max_samples: Type.Integer({ minimum: 1, maximum: 512 }),
    /** `interleaved` (also when absent): sample by sample. `planar`: all values of the first channel, then of the next. */
    order: Type.Optional(Type.Enum(['interleaved', 'planar'])),
    sample: Type.Array(SampleField, { minItems: 1 }),
    /** Fields after the samples. */
    trailer: Type.Optional(Type.Array(HeaderField)),
    checksum: Type.Optional(Checksum),
  },
  strict,
);
export type PacketLayout = Static<typeof Packet>;

export const Write = Type.Object(
  {
    /** Absent: the main service. */
    service_uuid: Type.Optional(Uuid),
    characteristic_uuid: Uuid,
    bytes: HexBytes,
    /** True: a command that the sensor does not acknowledge. */
    without_response: Type.Optional(Type.Boolean()),
    /** The host's UTC, in ticks since 1970, put over the bytes from `at` on. */
    host_time: Type.Optional(
      Type.Object(
        {
          at: Type.Integer({ minimum: 0, maximum: 240 }),
          type: Type.Enum(['uint32', 'uint64']),
          tick_s: Type.Number({ exclusiveMinimum: 0 }),
          byte_order: ByteOrder,
        },
        strict,
      ),
    ),
    /** A notification that must come after this write, before the next. */
    answer: Type.Optional(
      Type.Object(
        {
          service_uuid: Type.Optional(Uuid),
          characteristic_uuid: Uuid,
          begins_with: HexBytes,
          within_s: Type.Number({ exclusiveMinimum: 0, maximum: 30 }),
        },
        strict,
      ),
    ),
    /** A pause after it, seconds. */
    then_wait_s: Type.Optional(Type.Number({ exclusiveMinimum: 0, maximum: 10 })),
  },
  strict,
);
export type Write = Static<typeof Write>;
