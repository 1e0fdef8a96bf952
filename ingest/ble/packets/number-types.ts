import type { NumberType } from '../../../shared/schemas/stream-description.ts';

interface NumberCodec {
  bytes: number;
  /** Smallest and largest value; infinite for floating point. */
  min: number;
  max: number;
  read(view: DataView, offset: number, little: boolean): number;
  write(view: DataView, offset: number, value: number, little: boolean): void;
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

function integer(bytes: number, signed: boolean, read: NumberCodec['read'], write: NumberCodec['write']): NumberCodec {
  const size = 2 ** (8 * bytes);
  return { bytes, min: signed ? -size / 2 : 0, max: (signed ? size / 2 : size) - 1, read, write };
}

/** How each number type of a stream description is read from and written to a packet. */
export const NUMBER_CODECS: Record<NumberType, NumberCodec> = {
  uint8: integer(
    1,
    false,
    (v, o) => v.getUint8(o),
    (v, o, x) => v.setUint8(o, x),
  ),
  int8: integer(
    1,
    true,
    (v, o) => v.getInt8(o),
    (v, o, x) => v.setInt8(o, x),
  ),
  uint16: integer(
    2,
    false,
    (v, o, le) => v.getUint16(o, le),
    (v, o, x, le) => v.setUint16(o, x, le),
  ),
  int16: integer(
    2,
    true,
    (v, o, le) => v.getInt16(o, le),
    (v, o, x, le) => v.setInt16(o, x, le),
  ),
  uint24: integer(3, false, readUint24, writeUint24),
  int24: integer(3, true, (v, o, le) => (readUint24(v, o, le) << 8) >> 8, writeUint24),
  uint32: integer(
    4,
    false,
    (v, o, le) => v.getUint32(o, le),
    (v, o, x, le) => v.setUint32(o, x, le),
  ),
  int32: integer(
    4,
    true,
    (v, o, le) => v.getInt32(o, le),
    (v, o, x, le) => v.setInt32(o, x, le),
  ),
  float32: {
    bytes: 4,
    min: -Infinity,
    max: Infinity,
    read: (v, o, le) => v.getFloat32(o, le),
    write: (v, o, x, le) => v.setFloat32(o, x, le),
  },
  float64: {
    bytes: 8,
    min: -Infinity,
    max: Infinity,
    read: (v, o, le) => v.getFloat64(o, le),
    write: (v, o, x, le) => v.setFloat64(o, x, le),
  },
};
