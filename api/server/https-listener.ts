import { createServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import type { FastifyInstance } from 'fastify';
import { limitConnections } from './limit-connections.ts';
import { portTaken } from './start-fault.ts';

export interface HttpsListener {
  port: number;
  close(): Promise<void>;
}

/**
 * Serves the same application by https beside its plain address, so that requests keep the address they came from.
 * @param cert PEM, the server's certificate and those above it
 * @throws FaultError SERVER_PORT_TAKEN
 */
export async function listenByHttps(
  app: FastifyInstance,
  { host, port, cert, key }: { host: string; port: number; cert: string | Buffer; key: string | Buffer },
): Promise<HttpsListener> {
  await app.ready();
  const server = createServer({ cert, key, minVersion: 'TLSv1.2' }, (request, response) =>
    app.routing(request, response),
  );
  server.requestTimeout = app.server.requestTimeout;
  limitConnections(server);
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) =>
      reject(error.code === 'EADDRINUSE' ? portTaken(port, '--https-port') : error),
    );
    server.listen(port, host, () => resolve());
  });
  return {
    port: (server.address() as AddressInfo).port,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}
