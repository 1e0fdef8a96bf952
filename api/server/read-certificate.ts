import { readFileSync } from 'node:fs';
import { createSecureContext } from 'node:tls';
import { fault, FaultError } from '../../shared/fault.ts';

/**
 * A certificate and its key from PEM files, checked to belong together.
 * @throws FaultError FILE_NOT_FOUND, CERTIFICATE_UNREADABLE
 */
export function readCertificate(cert_file: string, key_file: string): { cert: Buffer; key: Buffer } {
  const pair = { cert: readPem(cert_file), key: readPem(key_file) };
  try {
    createSecureContext(pair);
  } catch (error) {
    const why = (error as Error).message;
    throw new FaultError(fault('CERTIFICATE_UNREADABLE', { cert_file, key_file, why }, { cert_file, key_file }));
  }
  return pair;
}

function readPem(file: string): Buffer {
  try {
    return readFileSync(file);
  } catch {
    throw new FaultError(fault('FILE_NOT_FOUND.certificate', { file }, { file }));
  }
}
