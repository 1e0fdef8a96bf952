import { hostname } from 'node:os';
import type { FastifyInstance } from 'fastify';
import type { AccessService } from '../access/access-service.ts';
import { lanCertificate } from '../access/certificates.ts';
import { lanAddresses } from '../access/lan-addresses.ts';
import { listenByHttps } from './https-listener.ts';
import { limitConnections } from './limit-connections.ts';
import { readCertificate } from './read-certificate.ts';

const EVERY_ADDRESS = '0.0.0.0';

/** How a server is reached by https. */
export interface HttpsOptions {
  port: number;
  /** Address it listens on; 0.0.0.0 for the local network. */
  host: string;
  /** PEM files of one's own; without them the certificate of this machine's own authority. */
  files?: { cert_file: string; key_file: string };
}

export interface ListenOptions {
  host: string;
  port: number;
  https?: HttpsOptions;
  /** Folder of this machine's own authority and its certificate. */
  tls_folder: string;
  /** The folder cannot be written: without a certificate there is no https, and this machine can still look. */
  read_only: boolean;
  /** Told the address before https is begun. */
  onListening?: (address: string) => void;
}

/** Names by which a server of this machine may be called. */
export function namesOfMachine(host: string): string[] {
  return [host, hostname(), `${hostname()}.local`];
}

/**
 * Listens by http and, where asked for, by https, and notes where devices of the network find the server. When it throws, nothing listens.
 * @returns the plain address, and what ends it all
 * @throws FaultError SERVER_PORT_TAKEN, FILE_NOT_FOUND, CERTIFICATE_UNREADABLE, and errors of the system
 */
export async function listen(
  app: FastifyInstance,
  access: AccessService,
  options: ListenOptions,
): Promise<{ address: string; stop: () => Promise<void> }> {
  const { host, port, https } = options;
  limitConnections(app.server);
  let stopHttps = async () => {};
  const stop = async () => {
    await stopHttps();
    await app.close();
  };
  try {
    const address = await app.listen({ host, port });
    options.onListening?.(address);
    if (host === EVERY_ADDRESS) {
      const listening = new URL(address).port;
      access.place.addresses = lanAddresses().map((name) => `http://${name}:${listening}`);
    }
    if (https) stopHttps = await startHttps(app, access, https, options);
    return { address, stop };
  } catch (error) {
    await stop();
    throw error;
  }
}

async function startHttps(
  app: FastifyInstance,
  access: AccessService,
  { host, port, files }: HttpsOptions,
  { tls_folder, read_only }: ListenOptions,
): Promise<() => Promise<void>> {
  const addresses = host === EVERY_ADDRESS ? lanAddresses() : [host];
  const name = `${hostname().replace(/\.local$/, '')}.local`.toLowerCase();
  let pair: { cert: string | Buffer; key: string | Buffer };
  if (files) pair = readCertificate(files.cert_file, files.key_file);
  else {
    const own = await lanCertificate(tls_folder, [...addresses, name]).catch((error: unknown) => {
      // A new certificate cannot be kept: this machine can still look.
      if (read_only) return null;
      throw error;
    });
    if (own === null) return async () => {};
    pair = own;
    access.place.ca_pem = own.authority;
    access.place.ca_fingerprint = own.fingerprint;
  }
  const listener = await listenByHttps(app, { host, port, ...pair });
  access.place.addresses = addresses.map((address) => `https://${address}:${listener.port}`);
  return listener.close;
}
