import type { HeaderField, PacketLayout } from '../../../shared/schemas/stream-description.ts';
import { CHECKSUMS } from './checksums.ts';
import { aligned, NUMBER_CODECS, type NumberCodec } from './number-types.ts';

/** One number of the samples, in the order of sending. */
export interface SampleStep {
  sample: number;
  /** Which of the layout's sample fields. */
  field: number;
  codec: NumberCodec;
  little: boolean;
  /** Sent as the difference to the sample before. */
  delta: boolean;
}

export interface HeaderStep {
  field: HeaderField['field'];
  codec: NumberCodec;
  little: boolean;
}

/** The layout of a packet, ready to walk over: what the decoder reads and the encoder writes, step by step. */
export interface PacketShape {
  header: HeaderStep[];
  trailer: HeaderStep[];
  header_bytes: number;
  trailer_bytes: number;
  checksum_bytes: number;
  /** Bytes of `samples` samples. */
  bodyBytes(samples: number): number;
  /** How many samples a body of so many bytes holds; not a whole number where none fits. */
  samplesIn(body_bytes: number): number;
  steps(samples: number): SampleStep[];
}

export function packetShape(packet: PacketLayout): PacketShape {
  const fieldSteps = (fields: HeaderField[]) =>
    fields.flatMap(({ field, type, byte_order, times = 1 }) =>
      Array.from({ length: times }, () => ({
        field,
        codec: NUMBER_CODECS[type],
        little: (byte_order ?? packet.byte_order) === 'little',
      })),
    );
  const header = fieldSteps(packet.header);
  const trailer = fieldSteps(packet.trailer ?? []);
  const bytesOf = (steps: HeaderStep[]) =>
    Math.ceil(steps.reduce((at, { codec }) => aligned(at, codec) + codec.bits, 0) / 8);
  const bits = (pick: (entry: PacketLayout['sample'][number]) => NumberCodec) =>
    packet.sample.reduce((sum, entry) => sum + pick(entry).bits, 0);
  const first_bits = bits((entry) => NUMBER_CODECS[entry.type]);
  const later_bits = bits((entry) => NUMBER_CODECS[entry.delta_type ?? entry.type]);
  const known = new Map<number, SampleStep[]>();
  return {
    header,
    trailer,
    header_bytes: bytesOf(header),
    trailer_bytes: bytesOf(trailer),
    checksum_bytes: packet.checksum === undefined ? 0 : CHECKSUMS[packet.checksum.kind].bytes,
    bodyBytes: (samples) => Math.ceil((first_bits + (samples - 1) * later_bits) / 8),
    samplesIn(body_bytes) {
      if (body_bytes * 8 < first_bits) return 0;
      const exact = 1 + (body_bytes * 8 - first_bits) / later_bits;
      const whole = Math.floor(exact);
      return Math.ceil((first_bits + (whole - 1) * later_bits) / 8) === body_bytes ? whole : exact;
    },
    steps(samples) {
      const steps = known.get(samples) ?? stepsOf(packet, samples);
      known.set(samples, steps);
      return steps;
    },
  };
}

function stepsOf(packet: PacketLayout, samples: number): SampleStep[] {
  const step = (sample: number, field: number): SampleStep => {
    const { type, delta_type, byte_order } = packet.sample[field];
    const delta = sample > 0 && delta_type !== undefined;
    return {
      sample,
      field,
      codec: NUMBER_CODECS[delta ? delta_type : type],
      little: (byte_order ?? packet.byte_order) === 'little',
      delta,
    };
  };
  const fields = packet.sample.map((_, field) => field);
  const numbers = Array.from({ length: samples }, (_, sample) => sample);
  return packet.order === 'planar'
    ? fields.flatMap((field) => numbers.map((sample) => step(sample, field)))
    : numbers.flatMap((sample) => fields.map((field) => step(sample, field)));
}
