import { createHash } from 'node:crypto';
import type { Analysis, Provenance } from '../../shared/analysis.ts';
import { VERSION } from '../version.ts';

/** JSON with the keys of every object in alphabetical order, so that equal values have equal text. */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(value, (_key, inner: unknown) =>
    inner !== null && typeof inner === 'object' && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}

/** SHA-256 in hexadecimal. */
export function sha256(bytes: string | Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/** What made a result: version, method, settings and the raw bytes they were applied to. */
export function provenanceOf(
  analysis: Pick<Analysis, 'method' | 'filters'>,
  settings: object,
  rawSha256: string[],
): Provenance {
  return {
    version: VERSION,
    method: analysis.method,
    settings: settings as Record<string, unknown>,
    settings_sha256: sha256(canonicalJson(settings)),
    raw_sha256: rawSha256,
    filters: analysis.filters,
  };
}
