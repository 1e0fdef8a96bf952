import type { Server } from 'node:net';
import { isLoopback } from '../access/caller.ts';

/** Connections that one address of the network may hold; a browser opens six, a field screen one more. */
const CONNECTIONS_AN_ADDRESS = 40;

/** Closes connections of an address that holds too many. This machine itself is not counted. */
export function limitConnections(server: Server): void {
  const held = new Map<string, number>();
  server.on('connection', (socket) => {
    const address = socket.remoteAddress;
    if (address === undefined || isLoopback(address)) return;
    const count = (held.get(address) ?? 0) + 1;
    held.set(address, count);
    socket.once('close', () => {
      const left = (held.get(address) ?? 1) - 1;
      if (left > 0) held.set(address, left);
      else held.delete(address);
    });
    if (count > CONNECTIONS_AN_ADDRESS) socket.destroy();
  });
}
