/** The certificate authority of a machine's own, judged by OpenSSL and by Node's own TLS. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { get } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { lanCertificate } from '../../../api/access/certificates.ts';
import { listenByHttps } from '../../../api/server/https-listener.ts';
import { readCertificate } from '../../../api/server/read-certificate.ts';
import { openTestApi } from '../../helpers/test-api.ts';

const folder = mkdtempSync(join(tmpdir(), 'cinderlane-tls-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const HOSTS = ['192.168.7.2', 'track.local'];

describe('the certificate of --lan', () => {
  it('is kept with its keys for the owner alone, and made anew when an address is missing in it', async () => {
    const first = await lanCertificate(folder, HOSTS);
    expect(statSync(folder).mode & 0o777).toBe(0o700);
    for (const name of ['authority.key', 'server.key']) expect(statSync(join(folder, name)).mode & 0o777).toBe(0o600);
    expect(await lanCertificate(folder, HOSTS)).toEqual(first);
    const moved = await lanCertificate(folder, [...HOSTS, '192.168.7.3']);
    expect(moved.authority).toBe(first.authority);
    expect(moved.cert).not.toBe(first.cert);
  });

  it('verifies in OpenSSL against its authority, for its addresses and names and no others', async () => {
    await lanCertificate(folder, HOSTS);
    const verify = (...more: string[]) =>
      spawnSync('openssl', [
        'verify',
        '-x509_strict',
        '-CAfile',
        join(folder, 'authority.crt'),
        ...more,
        join(folder, 'server.crt'),
      ]).status;
    expect(verify()).toBe(0);
    expect(verify('-verify_ip', '192.168.7.2')).toBe(0);
    expect(verify('-verify_hostname', 'track.local')).toBe(0);
    expect(verify('-verify_hostname', 'example.org')).not.toBe(0);
  });

  it('comes from an authority that OpenSSL does not believe for a name of the internet', async () => {
    await lanCertificate(folder, HOSTS);
    const file = (name: string) => join(folder, name);
    const openssl = (...words: string[]) => execFileSync('openssl', words, { cwd: folder, stdio: 'pipe' });
    for (const [name, san, believed] of [
      ['inside', 'DNS:timer.local', true],
      ['outside', 'DNS:www.example.org', false],
      ['address', 'IP:203.0.113.9', false],
    ] as const) {
      writeFileSync(file('san.cnf'), `subjectAltName=${san}\n`);
      openssl(
        'req',
        '-new',
        '-newkey',
        'ec',
        '-pkeyopt',
        'ec_paramgen_curve:P-256',
        '-nodes',
        '-keyout',
        file('k.pem'),
        '-subj',
        '/CN=x',
        '-out',
        file('x.csr'),
      );
      openssl(
        'x509',
        '-req',
        '-in',
        file('x.csr'),
        '-CA',
        file('authority.crt'),
        '-CAkey',
        file('authority.key'),
        '-CAcreateserial',
        '-days',
        '2',
        '-extfile',
        file('san.cnf'),
        '-out',
        file('x.crt'),
      );
      const { status } = spawnSync('openssl', ['verify', '-CAfile', file('authority.crt'), file('x.crt')]);
      expect(status === 0, name).toBe(believed);
    }
  });

  it('serves the same application by https to who trusts the authority', async () => {
    const own = await lanCertificate(folder, HOSTS);
    const api = await openTestApi();
    const listener = await listenByHttps(api.app, { host: '127.0.0.1', port: 0, cert: own.cert, key: own.key });
    const text = await new Promise<string>((resolve, reject) => {
      get({ host: '127.0.0.1', port: listener.port, path: '/api/health', ca: own.authority }, (answer) => {
        answer.setEncoding('utf8').on('data', resolve);
      }).on('error', reject);
    });
    expect(JSON.parse(text)).toMatchObject({ ok: true });
    await expect(
      listenByHttps(api.app, { host: '127.0.0.1', port: listener.port, cert: own.cert, key: own.key }),
    ).rejects.toMatchObject({ code: 'SERVER_PORT_TAKEN' });
    await listener.close();
    await api.close();
  });

  it("of one's own is refused when it is missing, is none, or does not go with its key", async () => {
    await lanCertificate(folder, HOSTS);
    const [cert, key] = [join(folder, 'server.crt'), join(folder, 'server.key')];
    expect(readCertificate(cert, key).cert.equals(readFileSync(cert))).toBe(true);
    expect(() => readCertificate(join(folder, 'none.pem'), key)).toThrow(/FILE_NOT_FOUND/);
    expect(() => readCertificate(cert, join(folder, 'authority.key'))).toThrow(/CERTIFICATE_UNREADABLE/);
    writeFileSync(join(folder, 'text.pem'), 'no certificate');
    expect(() => readCertificate(join(folder, 'text.pem'), key)).toThrow(/CERTIFICATE_UNREADABLE/);
  });
});
