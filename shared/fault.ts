/**
 * The one shape of everything that can go wrong for a user: on the command line, over HTTP, in a report.
 * A message says, in this order: where - what was found - what is allowed - what happened - what to do.
 */
export interface Fault {
  /** Stable upper-case code, e.g. `COLUMN_MISSING`. Every code is listed in shared/fault-codes.ts. */
  code: string;
  message: string;
  /** Where it happened: file, line, column, field, identifiers. */
  where: Record<string, string | number | null>;
  /** What the user can do about it; empty where nothing helps. */
  hint: string;
}

/** Thrown where the caller cannot go on. Input that can be set aside is collected as `Fault` values instead. */
export class FaultError extends Error implements Fault {
  readonly code: string;
  readonly where: Record<string, string | number | null>;
  readonly hint: string;

  constructor(fault: Fault) {
    super(fault.message);
    this.name = 'FaultError';
    this.code = fault.code;
    this.where = fault.where;
    this.hint = fault.hint;
  }

  toFault(): Fault {
    return { code: this.code, message: this.message, where: this.where, hint: this.hint };
  }
}
