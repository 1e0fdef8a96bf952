/** CRC-32 of ISO 3309 and ITU-T V.42 (polynomial 04C11DB7, reflected), as in gzip. */
export function crc32(bytes: Uint8Array, start = 0): number {
  return ~registerAfter(bytes, ~start) >>> 0;
}

const POLYNOMIAL = 0xedb88320;
const TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
  let value = n;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ POLYNOMIAL : value >>> 1;
  return value;
});

function registerAfter(bytes: Uint8Array, register: number): number {
  let crc = register;
  for (let i = 0; i < bytes.length; i++) crc = (crc >>> 8) ^ TABLE[(crc ^ bytes[i]) & 0xff];
  return crc;
}

const BLOCK = 1 << 16;

/**
 * Checksums of many overlapping stretches of the same bytes, each in a time that does not depend on its length: a checksum is linear
 * over GF(2), so that of a stretch follows from those of two beginnings (Adler's method of joining checksums). Blocks of
 * beginnings are made when they are asked for; those before the last `forget` are let go.
 */
export class StretchChecksums {
  readonly #bytes: Uint8Array;
  readonly #blocks = new Map<number, Uint32Array>();
  /** Register at the start of each block, from the first on. */
  readonly #starts: number[] = [0];

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes;
  }

  /** CRC-32 of the bytes from `start` to before `end`. */
  of(start: number, end: number): number {
    return ~(this.#registerAt(end) ^ afterZeros(this.#registerAt(start) ^ -1, end - start)) >>> 0;
  }

  /** Nothing before `at` will be asked for again. */
  forget(at: number): void {
    for (const block of this.#blocks.keys()) if ((block + 1) * BLOCK <= at) this.#blocks.delete(block);
  }

  #registerAt(at: number): number {
    const number = Math.floor(at / BLOCK);
    let block = this.#blocks.get(number);
    if (block === undefined) {
      while (this.#starts.length <= number) {
        const from = (this.#starts.length - 1) * BLOCK;
        this.#starts.push(registerAfter(this.#bytes.subarray(from, from + BLOCK), this.#starts.at(-1)!));
      }
      block = new Uint32Array(BLOCK);
      block[0] = this.#starts[number];
      for (let i = 1; i < BLOCK; i++) {
        const byte = this.#bytes[number * BLOCK + i - 1] ?? 0;
        block[i] = (block[i - 1] >>> 8) ^ TABLE[(block[i - 1] ^ byte) & 0xff];
      }
      this.#blocks.set(number, block);
    }
    return block[at % BLOCK];
  }
}

/** Product of two polynomials over GF(2) modulo that of the checksum, bits reflected. */
function product(a: number, b: number): number {
  let sum = 0;
  let factor = b;
  for (let bit = 1 << 31; bit !== 0; bit >>>= 1) {
    if (a & bit) {
      sum ^= factor;
      if ((a & (bit - 1)) === 0) break;
    }
    factor = factor & 1 ? (factor >>> 1) ^ POLYNOMIAL : factor >>> 1;
  }
  return sum;
}

/** x to the power of 8 * 2^k, for k from 0: what a register is multiplied by for 2^k bytes of zero. */
const ZERO_BYTES = (() => {
  const powers = [1 << 23];
  while (powers.length < 31) powers.push(product(powers.at(-1)!, powers.at(-1)!));
  return powers;
})();

/** The register after so many more bytes of zero. */
function afterZeros(register: number, count: number): number {
  let value = register;
  for (let k = 0, left = count; left > 0; k++, left = Math.floor(left / 2)) {
    if (left % 2 === 1) value = product(ZERO_BYTES[k], value);
  }
  return value;
}
