import { createHash, randomBytes, type webcrypto, X509Certificate as NodeCertificate } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { isIP } from 'node:net';
import { join } from 'node:path';
import { createRequire } from 'node:module';
import type * as Certificates from '@peculiar/x509';

const crypto = globalThis.crypto;
const load = createRequire(import.meta.url);
/** Loaded when a certificate is made, which is seldom: the library takes longer to load than the rest of the server. */
function library(): typeof Certificates {
  load('reflect-metadata');
  return load('@peculiar/x509') as typeof Certificates;
}
const ALGORITHM = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' };
const DAY_MS = 86_400_000;
const AUTHORITY_DAYS = 3650;
/** Phones refuse certificates of servers that are valid for longer than 825 days; a year is common practice. */
const SERVER_DAYS = 365;
/** A certificate is made anew this long before it ends. */
const RENEW_DAYS = 30;

/** What a certificate authority of our own may sign for: private addresses and names of the local network, nothing else. */
const PRIVATE_NETWORKS: [address: string, mask: string][] = [
  ['10.0.0.0', '255.0.0.0'],
  ['172.16.0.0', '255.240.0.0'],
  ['192.168.0.0', '255.255.0.0'],
  ['169.254.0.0', '255.255.0.0'],
  ['100.64.0.0', '255.192.0.0'],
  ['127.0.0.0', '255.0.0.0'],
];
const LOCAL_NAMES = ['local', 'localhost', 'lan', 'home.arpa', 'internal'];

export interface LanCertificate {
  /** PEM: the server's certificate and its authority's. */
  cert: string;
  key: string;
  authority: string;
  /** SHA-256 of the authority, `AB:CD:...`, as phones show it. */
  fingerprint: string;
}

/**
 * The certificate for https on the local network, from an authority of this machine's own that is made at first use and kept in
 * `folder` (keys readable by their owner only). The authority can sign for private addresses and local names alone (name
 * constraints, RFC 5280 section 4.2.1.10), so that a phone which trusts it trusts it with nothing on the internet.
 * @param hosts addresses and names by which devices will call; a new certificate is made when one is missing in the old
 */
export async function lanCertificate(folder: string, hosts: string[], now = new Date()): Promise<LanCertificate> {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const authority = await keptOr(
    folder,
    'authority',
    (cert) => stillGood(cert, now),
    () => makeAuthority(now),
  );
  const allowed = hosts.filter(isLocal);
  const server = await keptOr(
    folder,
    'server',
    (cert) =>
      stillGood(cert, now) && cert.verify(new NodeCertificate(authority.cert).publicKey) && names(cert, allowed),
    () => makeServer(authority, allowed, now),
  );
  const fingerprint = new NodeCertificate(authority.cert).fingerprint256;
  return { cert: `${server.cert}\n${authority.cert}`, key: server.key, authority: authority.cert, fingerprint };
}

interface Pair {
  cert: string;
  key: string;
}

async function keptOr(
  folder: string,
  name: string,
  good: (cert: NodeCertificate) => boolean,
  make: () => Promise<Pair>,
): Promise<Pair> {
  const [certFile, keyFile] = [join(folder, `${name}.crt`), join(folder, `${name}.key`)];
  if (existsSync(certFile) && existsSync(keyFile)) {
    const kept = { cert: readFileSync(certFile, 'utf8'), key: readFileSync(keyFile, 'utf8') };
    try {
      if (good(new NodeCertificate(kept.cert))) return kept;
    } catch {
      // Damaged: made anew.
    }
  }
  const made = await make();
  writeFileSync(keyFile, made.key, { mode: 0o600 });
  writeFileSync(certFile, made.cert, { mode: 0o600 });
  return made;
}

async function makeAuthority(now: Date): Promise<Pair> {
  const x509 = library();
  const keys = await newKeys();
  const cert = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: randomSerial(),
    name: 'CN=Cinderlane of this machine',
    notBefore: new Date(now.getTime() - DAY_MS),
    notAfter: new Date(now.getTime() + AUTHORITY_DAYS * DAY_MS),
    keys,
    signingAlgorithm: ALGORITHM,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      new x509.Extension('2.5.29.30', true, nameConstraints()),
    ],
  });
  return { cert: cert.toString('pem'), key: await pemOf(keys.privateKey) };
}

async function makeServer(authority: Pair, hosts: string[], now: Date): Promise<Pair> {
  const x509 = library();
  const keys = await newKeys();
  const issuer = new x509.X509Certificate(authority.cert);
  const signingKey = await crypto.subtle.importKey(
    'pkcs8',
    x509.PemConverter.decode(authority.key)[0],
    ALGORITHM,
    false,
    ['sign'],
  );
  const names = ['localhost', ...hosts].map(
    (host): Certificates.JsonGeneralName => ({ type: isIP(host) ? 'ip' : 'dns', value: host }),
  );
  const cert = await x509.X509CertificateGenerator.create({
    serialNumber: randomSerial(),
    subject: 'CN=Cinderlane',
    issuer: issuer.subject,
    notBefore: new Date(now.getTime() - DAY_MS),
    notAfter: new Date(now.getTime() + SERVER_DAYS * DAY_MS),
    publicKey: keys.publicKey,
    signingKey,
    signingAlgorithm: ALGORITHM,
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension([...names, { type: 'ip', value: '127.0.0.1' }]),
      await x509.AuthorityKeyIdentifierExtension.create(issuer, false),
    ],
  });
  return { cert: cert.toString('pem'), key: await pemOf(keys.privateKey) };
}

/** DER of the extension: permitted subtrees, each a name of type dNSName [2] or iPAddress [7]. */
function nameConstraints(): ArrayBuffer {
  const der = (tag: number, ...parts: Uint8Array[]) => {
    const body = Buffer.concat(parts);
    const length = body.length < 128 ? [body.length] : [0x81, body.length];
    return Buffer.concat([Buffer.from([tag, ...length]), body]);
  };
  const bytes = (address: string) => Buffer.from(address.split('.').map(Number));
  const subtrees = [
    ...LOCAL_NAMES.map((name) => der(0x30, der(0x82, Buffer.from(name)))),
    ...PRIVATE_NETWORKS.map(([address, mask]) => der(0x30, der(0x87, bytes(address), bytes(mask)))),
  ];
  const encoded = der(0x30, der(0xa0, ...subtrees));
  return encoded.buffer.slice(encoded.byteOffset, encoded.byteOffset + encoded.length) as ArrayBuffer;
}

/** A private address or a local name: what the authority may sign for. */
function isLocal(host: string): boolean {
  if (isIP(host) !== 4) return LOCAL_NAMES.some((name) => host === name || host.endsWith(`.${name}`));
  const number = (address: string) => address.split('.').reduce((sum, part) => sum * 256 + Number(part), 0);
  return PRIVATE_NETWORKS.some(([address, mask]) => (number(host) & number(mask)) >>> 0 === number(address) >>> 0);
}

function names(cert: NodeCertificate, hosts: string[]): boolean {
  return hosts.every((host) => (isIP(host) ? cert.checkIP(host) : cert.checkHost(host)) !== undefined);
}

function stillGood(cert: NodeCertificate, now: Date): boolean {
  return Date.parse(cert.validTo) - now.getTime() > RENEW_DAYS * DAY_MS;
}

function newKeys(): Promise<webcrypto.CryptoKeyPair> {
  return crypto.subtle.generateKey(ALGORITHM, true, ['sign', 'verify']) as Promise<webcrypto.CryptoKeyPair>;
}

async function pemOf(key: webcrypto.CryptoKey): Promise<string> {
  return library().PemConverter.encode(await crypto.subtle.exportKey('pkcs8', key as CryptoKey), 'PRIVATE KEY');
}

function randomSerial(): string {
  return createHash('sha256')
    .update(randomBytes(32))
    .digest('hex')
    .slice(0, 32)
    .replace(/^[89a-f]/, '7');
}
