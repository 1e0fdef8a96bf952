import { fault, FaultError } from '../../shared/fault.ts';
import type { AccessService } from '../access/access-service.ts';
import type { HttpsOptions } from '../server/listen.ts';
import { DEFAULT_HTTPS_PORT } from '../server/ports.ts';
import type { OptionDefinition, OptionValues } from './command.ts';

/** Where a server listens, the same for every command that serves, but for the port. */
export const LISTEN_OPTIONS = {
  host: {
    value: 'NAME',
    help: '127.0.0.1 without it; 0.0.0.0 opens it to the local network without encryption, for paired devices',
  },
  lan: { help: 'opens it to the local network by https, for paired devices only; makes its certificate itself' },
  'https-port': { value: 'NUMBER', help: `port of https; ${DEFAULT_HTTPS_PORT} without it` },
  'tls-cert': { value: 'FILE', help: "a certificate of one's own for https, PEM" },
  'tls-key': { value: 'FILE', help: 'key of that certificate, PEM' },
} satisfies Record<string, OptionDefinition>;

/** @throws FaultError OPTION_UNREADABLE, OPTION_MISSING */
export function listenOptions(
  options: OptionValues,
  usual_port: number,
): { host: string; port: number; https: HttpsOptions | undefined } {
  return {
    host: (options.host as string | undefined) ?? '127.0.0.1',
    port: readPort(options.port as string | undefined, '--port', usual_port),
    https: httpsOptions(options),
  };
}

/** Prints where other devices find the server, and the first pairing code with its QR code. */
export async function tellNetwork(access: AccessService): Promise<void> {
  const { addresses, ca_fingerprint } = access.place;
  if (addresses.length === 0) return;
  process.stdout.write(`for paired phones and tablets on this network: ${addresses.join(' ')}\n`);
  if (ca_fingerprint) {
    process.stdout.write(`certificate authority of this machine, SHA-256 ${ca_fingerprint}\n`);
    process.stdout.write(`how a phone trusts it: ${addresses[0]}/#/trust\n`);
  }
  process.stdout.write(await access.issueForTerminal(access.roles[0]));
  process.stdout.write('further codes, and the list of devices: the page "Devices" on this machine\n');
}

/** How https is asked for: `--lan` alone, or a port of one's own with or without a certificate of one's own. */
function httpsOptions(options: Record<string, unknown>): HttpsOptions | undefined {
  const [cert_file, key_file] = [options['tls-cert'], options['tls-key']] as (string | undefined)[];
  const wanted = options.lan === true || options['https-port'] !== undefined;
  if ((cert_file === undefined) !== (key_file === undefined) || (cert_file !== undefined && !wanted)) {
    throw new FaultError(fault('OPTION_MISSING.certificate', {}, { option: '--tls-cert' }));
  }
  if (!wanted) return undefined;
  return {
    host: options.lan === true ? '0.0.0.0' : ((options.host as string | undefined) ?? '127.0.0.1'),
    port: readPort(options['https-port'] as string | undefined, '--https-port', DEFAULT_HTTPS_PORT),
    files: cert_file !== undefined && key_file !== undefined ? { cert_file, key_file } : undefined,
  };
}

function readPort(text: string | undefined, option: string, usual: number): number {
  if (text === undefined) return usual;
  const port = Number(text);
  if (/^\d{1,5}$/.test(text) && port <= 65535) return port;
  throw new FaultError(fault('OPTION_UNREADABLE.port', { option, text, usual }, { option, value: text }));
}

/** Ctrl+C, or a service that is stopped. */
export function untilStopped(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });
}
