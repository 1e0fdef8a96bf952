import { crc32 } from '../../../shared/crc32.ts';
import type { PacketLayout } from '../../../shared/schemas/stream-description.ts';

type ChecksumKind = NonNullable<PacketLayout['checksum']>['kind'];

/**
 * How each checksum of a stream description is made. Parameters of the cyclic ones: Cook, Catalogue of parametrised CRC
 * algorithms (CRC-8/SMBUS, CRC-16/IBM-3740 known as CCITT with start FFFF, CRC-16/MODBUS, CRC-32/ISO-HDLC).
 */
export const CHECKSUMS: Record<ChecksumKind, { bytes: 1 | 2 | 4; of(bytes: Uint8Array): number }> = {
  sum8: { bytes: 1, of: (bytes) => bytes.reduce((sum, byte) => (sum + byte) & 0xff, 0) },
  xor8: { bytes: 1, of: (bytes) => bytes.reduce((sum, byte) => sum ^ byte, 0) },
  crc8: { bytes: 1, of: (bytes) => cyclic(bytes, 8, 0x07, 0) },
  crc16_ccitt: { bytes: 2, of: (bytes) => cyclic(bytes, 16, 0x1021, 0xffff) },
  crc16_modbus: { bytes: 2, of: modbus },
  crc32: { bytes: 4, of: (bytes) => crc32(bytes) },
};

/** Most significant bit first. */
function cyclic(bytes: Uint8Array, width: 8 | 16, polynomial: number, start: number): number {
  const top = 1 << (width - 1);
  const mask = 2 ** width - 1;
  let value = start;
  for (const byte of bytes) {
    value ^= byte << (width - 8);
    for (let bit = 0; bit < 8; bit++) value = (value & top ? (value << 1) ^ polynomial : value << 1) & mask;
  }
  return value;
}

function modbus(bytes: Uint8Array): number {
  let value = 0xffff;
  for (const byte of bytes) {
    value ^= byte;
    for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >> 1) ^ 0xa001 : value >> 1;
  }
  return value;
}

/** Checksum over a packet's bytes before it, as the layout asks. */
export function checksumOf({ kind, skips = 0 }: NonNullable<PacketLayout['checksum']>, body: Uint8Array): number {
  return CHECKSUMS[kind].of(body.subarray(skips));
}
