import { readFileSync } from 'node:fs';
import { connect } from 'node:net';
import { createServer } from 'node:tls';
import { FaultError } from '../../shared/fault.ts';

export interface HttpsFrontOptions {
  host: string;
  port: number;
  /** PEM files. */
  cert_file: string;
  key_file: string;
  /** Where the server itself listens. */
  target_port: number;
}

/**
 * Lets browsers reach the server by https, which they ask for before a phone on the network may use its Bluetooth:
 * takes the encryption off and hands the bytes on.
 * @throws FaultError FILE_NOT_FOUND, CERTIFICATE_UNREADABLE, SERVER_PORT_TAKEN
 */
export async function startHttpsFront(options: HttpsFrontOptions): Promise<{ port: number; close(): Promise<void> }> {
  const { host, port, target_port } = options;
  const sockets = new Set<{ destroy(): void }>();
  const server = createServer(readPair(options));
  server.on('secureConnection', (outer) => {
    const inner = connect(target_port, host === '0.0.0.0' || host === '::' ? '127.0.0.1' : host);
    for (const [one, other] of [
      [outer, inner],
      [inner, outer],
    ]) {
      sockets.add(one);
      one.pipe(other);
      one.on('error', () => other.destroy());
      one.on('close', () => {
        sockets.delete(one);
        other.destroy();
      });
    }
  });
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) =>
      reject(error.code === 'EADDRINUSE' ? portTaken(port) : error),
    );
    server.listen(port, host, () => resolve());
  });
  return {
    port: (server.address() as { port: number }).port,
    close: () =>
      new Promise((resolve) => {
        for (const socket of sockets) socket.destroy();
        server.close(() => resolve());
      }),
  };
}

function readPair({ cert_file, key_file }: HttpsFrontOptions): { cert: Buffer; key: Buffer } {
  const read = (file: string) => {
    try {
      return readFileSync(file);
    } catch {
      throw new FaultError({
        code: 'FILE_NOT_FOUND',
        message: `${file} cannot be read. The server was not started.`,
        where: { file },
        hint: 'Name a certificate and its key, both as PEM files.',
      });
    }
  };
  const pair = { cert: read(cert_file), key: read(key_file) };
  try {
    createServer(pair).close();
  } catch (error) {
    throw new FaultError({
      code: 'CERTIFICATE_UNREADABLE',
      message: `${cert_file} and ${key_file} are not a certificate and its key: ${(error as Error).message}. The server was not started.`,
      where: { cert_file, key_file },
      hint: 'Both must be PEM files that belong together.',
    });
  }
  return pair;
}

function portTaken(port: number): FaultError {
  return new FaultError({
    code: 'SERVER_PORT_TAKEN',
    message: `Port ${port} is in use by another program; the server was not started.`,
    where: { port },
    hint: 'Name another one with --https-port, or 0 for any free one.',
  });
}
