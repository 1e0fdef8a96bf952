/** CRC-32 of ISO 3309 and ITU-T V.42 (polynomial 04C11DB7, reflected), as in gzip. */
export function crc32(bytes: Uint8Array, start = 0): number {
  let crc = ~start;
  for (let i = 0; i < bytes.length; i++) crc = (crc >>> 8) ^ TABLE[(crc ^ bytes[i]) & 0xff];
  return ~crc >>> 0;
}

const TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
  let value = n;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});
