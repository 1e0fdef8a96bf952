import { FaultError } from '../../../shared/fault.ts';

/** What an input did: a clean end or a known fault is well; the rest is named. */
export interface Outcome {
  kind: 'read' | 'refused' | 'crashed' | 'slow' | 'differs';
  why: string;
  cpu_s: number;
}

export const LIMIT_S = 2;

/** Reads one input and tells what became of it. @param read the value is what it came to, as text, for a comparison */
export async function tryInput(read: () => Promise<unknown> | unknown): Promise<Outcome & { value: string }> {
  const before = process.cpuUsage();
  let kind: Outcome['kind'] = 'read';
  let why = '';
  let value = '';
  try {
    value = asText(await read());
  } catch (error) {
    kind = error instanceof FaultError ? 'refused' : 'crashed';
    why =
      error instanceof FaultError
        ? error.code
        : error instanceof Error
          ? (error.stack ?? error.message)
          : String(error);
    value = error instanceof FaultError ? `${error.code} ${error.message}` : why;
  }
  const { user, system } = process.cpuUsage(before);
  const cpu_s = (user + system) / 1e6;
  if (kind !== 'crashed' && cpu_s > LIMIT_S) kind = 'slow';
  return { kind, why, cpu_s, value };
}

function asText(value: unknown): string {
  return (
    JSON.stringify(value, (_key, inner) =>
      ArrayBuffer.isView(inner)
        ? Buffer.from(inner.buffer, inner.byteOffset, inner.byteLength).toString('base64')
        : inner,
    ) ?? 'undefined'
  );
}
