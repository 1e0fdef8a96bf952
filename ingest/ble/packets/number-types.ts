import type { NumberType } from '../../../shared/schemas/stream-description.ts';

export interface NumberCodec {
  /** 4 and 12 bits are packed, least significant bit first in little-endian packets; the others begin at whole bytes. */
  bits: number;
  /** Smallest and largest value; infinite for floating point. */
  min: number;
  max: number;
  /** @param at place of the first bit */
  read(view: DataView, at: number, little: boolean): number;
  write(view: DataView, at: number, value: number, little: boolean): void;
}

type Read = (view: DataView, offset: number, little: boolean) => number;
type Put = (view: DataView, offset: number, value: number, little: boolean) => void;

/** A type of whole bytes. */
function wholeBytes(bytes: number, limits: { min: number; max: number }, read: Read, write: Put): NumberCodec {
  return {
    bits: 8 * bytes,
    ...limits,
    read: (view, at, little) => read(view, at >> 3, little),
    write: (view, at, value, little) => write(view, at >> 3, value, little),
  };
}

function limitsOf(bits: number, signed: boolean): { min: number; max: number } {
  const size = 2 ** bits;
  return { min: signed ? -size / 2 : 0, max: (signed ? size / 2 : size) - 1 };
}

/** A type of 4 or 12 bits, which may begin in the middle of a byte. */
function packedBits(bits: number, signed: boolean): NumberCodec {
  const mask = 2 ** bits - 1;
  const place = (at: number, little: boolean) => ({
    byte: at >> 3,
    shift: little ? at & 7 : 24 - (at & 7) - bits,
  });
  const three = (view: DataView, byte: number, little: boolean) => {
    const value = (k: number) => (byte + k < view.byteLength ? view.getUint8(byte + k) : 0);
    return little ? value(0) | (value(1) << 8) | (value(2) << 16) : (value(0) << 16) | (value(1) << 8) | value(2);
  };
  return {
    bits,
    ...limitsOf(bits, signed),
    read(view, at, little) {
      const { byte, shift } = place(at, little);
      const raw = (three(view, byte, little) >> shift) & mask;
      return signed && raw > mask >> 1 ? raw - mask - 1 : raw;
    },
    write(view, at, value, little) {
      const { byte, shift } = place(at, little);
      const all = (three(view, byte, little) & ~(mask << shift)) | ((value & mask) << shift);
      for (let k = 0; k < 3 && byte + k < view.byteLength; k++) {
        view.setUint8(byte + k, (all >> (little ? 8 * k : 16 - 8 * k)) & 0xff);
      }
    },
  };
}

function readUint24(view: DataView, offset: number, little: boolean): number {
  const middle = view.getUint8(offset + 1) << 8;
  const [low, high] = little ? [offset, offset + 2] : [offset + 2, offset];
  return view.getUint8(low) | middle | (view.getUint8(high) << 16);
}

function writeUint24(view: DataView, offset: number, value: number, little: boolean): void {
  const [low, high] = little ? [offset, offset + 2] : [offset + 2, offset];
  view.setUint8(low, value & 0xff);
  view.setUint8(offset + 1, (value >> 8) & 0xff);
  view.setUint8(high, (value >> 16) & 0xff);
}

const FLOAT = { min: -Infinity, max: Infinity };

/** How each number type of a stream description is read from and written to a packet. Above 2^53 to the nearest double. */
export const NUMBER_CODECS: Record<NumberType, NumberCodec> = {
  uint4: packedBits(4, false),
  uint12: packedBits(12, false),
  int12: packedBits(12, true),
  uint8: wholeBytes(
    1,
    limitsOf(8, false),
    (v, o) => v.getUint8(o),
    (v, o, x) => v.setUint8(o, x),
  ),
  int8: wholeBytes(
    1,
    limitsOf(8, true),
    (v, o) => v.getInt8(o),
    (v, o, x) => v.setInt8(o, x),
  ),
  uint16: wholeBytes(
    2,
    limitsOf(16, false),
    (v, o, le) => v.getUint16(o, le),
    (v, o, x, le) => v.setUint16(o, x, le),
  ),
  int16: wholeBytes(
    2,
    limitsOf(16, true),
    (v, o, le) => v.getInt16(o, le),
    (v, o, x, le) => v.setInt16(o, x, le),
  ),
  uint24: wholeBytes(3, limitsOf(24, false), readUint24, writeUint24),
  int24: wholeBytes(3, limitsOf(24, true), (v, o, le) => (readUint24(v, o, le) << 8) >> 8, writeUint24),
  uint32: wholeBytes(
    4,
    limitsOf(32, false),
    (v, o, le) => v.getUint32(o, le),
    (v, o, x, le) => v.setUint32(o, x, le),
  ),
  int32: wholeBytes(
    4,
    limitsOf(32, true),
    (v, o, le) => v.getInt32(o, le),
    (v, o, x, le) => v.setInt32(o, x, le),
  ),
  uint64: wholeBytes(
    8,
    limitsOf(64, false),
    (v, o, le) => Number(v.getBigUint64(o, le)),
    (v, o, x, le) => v.setBigUint64(o, BigInt(x), le),
  ),
  int64: wholeBytes(
    8,
    limitsOf(64, true),
    (v, o, le) => Number(v.getBigInt64(o, le)),
    (v, o, x, le) => v.setBigInt64(o, BigInt(x), le),
  ),
  float32: wholeBytes(
    4,
    FLOAT,
    (v, o, le) => v.getFloat32(o, le),
    (v, o, x, le) => v.setFloat32(o, x, le),
  ),
  float64: wholeBytes(
    8,
    FLOAT,
    (v, o, le) => v.getFloat64(o, le),
    (v, o, x, le) => v.setFloat64(o, x, le),
  ),
};

/** Where a number of this type may begin: types of whole bytes at whole bytes. */
export function aligned(at: number, { bits }: NumberCodec): number {
  return bits % 8 === 0 ? (at + 7) & ~7 : at;
}
