import { networkInterfaces } from 'node:os';

/** IPv4 addresses by which other devices of the local network reach this machine. */
export function lanAddresses(): string[] {
  return Object.values(networkInterfaces())
    .flatMap((entries) => entries ?? [])
    .filter((entry) => entry.family === 'IPv4' && !entry.internal)
    .map((entry) => entry.address);
}
