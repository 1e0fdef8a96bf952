import { appendFileSync, renameSync, statSync } from 'node:fs';
import { randomUUID } from 'node:crypto';

/** The log and the one before it together stay below twice this. */
const LIMIT_BYTES = 1_000_000;

/** One failure of the program, without anything that a person typed or recorded. */
export interface FailureNote {
  /** What was asked for: method and path of the router, or the kind of task. */
  during: string;
  error: unknown;
}

/**
 * Keeps failures of the program in a file beside the database, so that a fault on the screen can be looked up by its identifier later.
 * Messages of errors may hold names and values, so only their kinds and the places in the code are written.
 */
export class ErrorLog {
  readonly #file: string | null;

  /** @param file null keeps nothing, for a passing database */
  constructor(file: string | null) {
    this.#file = file;
  }

  /** Notes a failure. @returns its identifier; a log that cannot be written stops nothing */
  note({ during, error }: FailureNote): string {
    const error_id = randomUUID().slice(0, 8);
    const line = { at_utc: new Date().toISOString(), error_id, during, ...kindOf(error) };
    if (this.#file === null) return error_id;
    try {
      if ((statSync(this.#file, { throwIfNoEntry: false })?.size ?? 0) > LIMIT_BYTES) {
        renameSync(this.#file, `${this.#file}.before`);
      }
      appendFileSync(this.#file, `${JSON.stringify(line)}\n`, { mode: 0o600 });
    } catch {
      // A full disk is told where it matters: by the fault itself.
    }
    return error_id;
  }
}

function kindOf(error: unknown): { kind: string; code: string | null; at: string[] } {
  if (!(error instanceof Error)) return { kind: typeof error, code: null, at: [] };
  const { code } = error as { code?: unknown };
  const at = (error.stack ?? '')
    .split('\n')
    .filter((line) => /^\s{1,8}at /.test(line))
    .slice(0, 12);
  return { kind: error.name, code: typeof code === 'string' ? code : null, at: at.map((line) => line.trim()) };
}
