import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type IncomingMessage } from 'node:http';
import { get } from 'node:https';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startHttpsFront } from '../../api/server/https-front.ts';

const has_openssl = spawnSync('openssl', ['version']).status === 0;

describe.skipIf(!has_openssl)('the https way in', () => {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-https-'));
  const cert_file = join(folder, 'cert.pem');
  const key_file = join(folder, 'key.pem');
  const inner = createServer((request, answer) => answer.end(`host ${request.headers.host}`));
  beforeAll(async () => {
    const subject = ['-subj', '/CN=localhost', '-addext', 'subjectAltName=DNS:localhost'];
    const make = ['req', '-x509', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:P-256', '-nodes', '-days', '2'];
    execFileSync('openssl', [...make, '-keyout', key_file, '-out', cert_file, ...subject], { stdio: 'ignore' });
    await new Promise<void>((resolve) => inner.listen(0, '127.0.0.1', resolve));
  });
  afterAll(() => {
    inner.close();
    rmSync(folder, { recursive: true, force: true });
  });
  const options = () => ({
    host: '127.0.0.1',
    port: 0,
    cert_file,
    key_file,
    target_port: (inner.address() as AddressInfo).port,
  });

  it('hands requests on as they are, so that the page’s own origin stays its own', async () => {
    const front = await startHttpsFront(options());
    const answer = await new Promise<IncomingMessage>((resolve, reject) => {
      get(
        {
          host: '127.0.0.1',
          port: front.port,
          servername: 'localhost',
          headers: { host: `localhost:${front.port}` },
          rejectUnauthorized: false,
        },
        resolve,
      ).on('error', reject);
    });
    let text = '';
    for await (const bytes of answer) text += bytes;
    expect(text).toBe(`host localhost:${front.port}`);
    await front.close();
  });

  it('refuses a port that is taken, a file that is not there, and what is no certificate', async () => {
    const front = await startHttpsFront(options());
    await expect(startHttpsFront({ ...options(), port: front.port })).rejects.toMatchObject({
      code: 'SERVER_PORT_TAKEN',
    });
    await front.close();
    await expect(startHttpsFront({ ...options(), key_file: join(folder, 'none.pem') })).rejects.toMatchObject({
      code: 'FILE_NOT_FOUND',
    });
    const wrong = join(folder, 'wrong.pem');
    writeFileSync(wrong, 'rain\n');
    await expect(startHttpsFront({ ...options(), cert_file: wrong })).rejects.toMatchObject({
      code: 'CERTIFICATE_UNREADABLE',
    });
  });
});
