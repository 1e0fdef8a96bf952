import { brotliCompressSync, brotliDecompressSync, constants } from 'node:zlib';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';

/**
 * One channel's samples as a small blob, exactly: what comes out is what went in, to the last bit (NaN included).
 *
 * Sensor files hold decimal numbers times a unit (0.0137 g). Where every value of a chunk equals `whole / 10^k * factor`
 * for one k and one known factor, the whole numbers are stored: difference to the one before, zigzag, bytes of equal weight
 * together, brotli. Where they do not, the 64-bit patterns are stored with their bytes sorted by weight, and brotli.
 *
 * Layout: byte 0 kind (0 patterns, 1 decimals), byte 1 k, bytes 2..3 unused, bytes 4..7 number of samples, bytes 8..15
 * factor, all little-endian; then the brotli stream.
 */
const HEADER_BYTES = 16;
const KIND_PATTERNS = 0;
const KIND_DECIMALS = 1;
const MAX_DECIMALS = 9;
const MISSING = -0x80000000;
const MINUS_ZERO = -0x7fffffff;
const LARGEST_WHOLE = 0x7ffffff0;

/** SI value of one unit as files write them: SI itself, g, mg, deg/s, mdeg/s; ms, us, ns. */
const UNIT_FACTORS = [
  1,
  STANDARD_GRAVITY_MPS2,
  STANDARD_GRAVITY_MPS2 / 1000,
  RADIANS_PER_DEGREE,
  RADIANS_PER_DEGREE / 1000,
];

/**
 * @param factors more values of one unit to try first, such as a radio sensor's scale
 */
export function encodeChannel(values: Float64Array, factors: number[] = []): Uint8Array {
  for (const factor of [...factors, ...UNIT_FACTORS]) {
    const found = asWholeNumbers(values, factor);
    if (found) return pack(KIND_DECIMALS, found.decimals, factor, values.length, differences(found.whole));
  }
  const patterns = new Uint8Array(values.slice().buffer);
  return pack(KIND_PATTERNS, 0, 1, values.length, byWeight(patterns, 8));
}

/** @returns the samples given to `encodeChannel` */
export function decodeChannel(bytes: Uint8Array): Float64Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const [kind, decimals] = [view.getUint8(0), view.getUint8(1)];
  const samples = view.getUint32(4, true);
  const factor = view.getFloat64(8, true);
  const body = new Uint8Array(brotliDecompressSync(bytes.subarray(HEADER_BYTES)));
  if (kind === KIND_PATTERNS) return new Float64Array(fromWeight(body, 8).buffer);
  const zigzags = new Uint32Array(fromWeight(body, 4).buffer);
  const values = new Float64Array(samples);
  const power = 10 ** decimals;
  let whole = 0;
  for (let i = 0; i < samples; i++) {
    whole = (whole + ((zigzags[i] >>> 1) ^ -(zigzags[i] & 1))) | 0;
    values[i] = whole === MISSING ? Number.NaN : whole === MINUS_ZERO ? -0 : (whole / power) * factor;
  }
  return values;
}

/** Whole numbers of the attempt at hand: used again and again, since most attempts fail at the first value. */
let attempt = new Int32Array(0);

/** Finds the smallest k for which every value is `whole / 10^k * factor`, to the bit. */
function asWholeNumbers(values: Float64Array, factor: number): { whole: Int32Array; decimals: number } | null {
  for (let decimals = 0; decimals <= MAX_DECIMALS; decimals++) {
    const whole = wholeNumbers(values, factor, 10 ** decimals);
    if (whole) return { whole, decimals };
  }
  return null;
}

function wholeNumbers(values: Float64Array, factor: number, power: number): Int32Array | null {
  if (attempt.length < values.length) attempt = new Int32Array(values.length);
  const whole = attempt.subarray(0, values.length);
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (Number.isNaN(value)) {
      whole[i] = MISSING;
      continue;
    }
    const rounded = Math.round((value / factor) * power);
    if (Math.abs(rounded) > LARGEST_WHOLE || (rounded / power) * factor !== value) return null;
    whole[i] = Object.is(value, -0) ? MINUS_ZERO : rounded;
  }
  return whole;
}

function differences(whole: Int32Array): Uint8Array {
  const zigzags = new Uint32Array(whole.length);
  let before = 0;
  for (let i = 0; i < whole.length; i++) {
    const difference = (whole[i] - before) | 0;
    zigzags[i] = (difference << 1) ^ (difference >> 31);
    before = whole[i];
  }
  return byWeight(new Uint8Array(zigzags.buffer), 4);
}

/** All first bytes, then all second bytes, and so on: neighbours are then alike. */
function byWeight(bytes: Uint8Array, width: number): Uint8Array {
  const count = bytes.length / width;
  const sorted = new Uint8Array(bytes.length);
  for (let b = 0; b < width; b++) {
    for (let i = 0; i < count; i++) sorted[b * count + i] = bytes[i * width + b];
  }
  return sorted;
}

function fromWeight(sorted: Uint8Array, width: number): Uint8Array {
  const count = sorted.length / width;
  const bytes = new Uint8Array(sorted.length);
  for (let b = 0; b < width; b++) {
    for (let i = 0; i < count; i++) bytes[i * width + b] = sorted[b * count + i];
  }
  return bytes;
}

function pack(kind: number, decimals: number, factor: number, samples: number, body: Uint8Array): Uint8Array {
  const packed = brotliCompressSync(body, { params: { [constants.BROTLI_PARAM_QUALITY]: 4 } });
  const bytes = new Uint8Array(HEADER_BYTES + packed.length);
  const view = new DataView(bytes.buffer);
  view.setUint8(0, kind);
  view.setUint8(1, decimals);
  view.setUint32(4, samples, true);
  view.setFloat64(8, factor, true);
  bytes.set(packed, HEADER_BYTES);
  return bytes;
}
