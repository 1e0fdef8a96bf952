import type { FaultCode } from './fault-codes.ts';
import type { FaultKey, FaultValues } from './messages/en/faults.ts';
import type { Values } from './messages/sentence.ts';

/** Where it happened: file, line, column, field, identifiers. */
export type Where = Record<string, string | number | null>;

/** What went wrong for a user, as it is made and stored: a code and values, no words. */
export interface CodedFault {
  code: FaultCode;
  /** Key of its sentence in shared/messages: the code, with a word of its own where one code has several sentences. */
  sentence: string;
  values: Values;
  where: Where;
}

/**
 * The one shape in which a fault is shown: on the command line, over HTTP, in a report. A message says, in this order:
 * where - what was found - what is allowed - what happened - what to do.
 */
export interface ToldFault {
  /** Stable upper-case code, e.g. `COLUMN_MISSING`. Every code is listed in shared/fault-codes.ts. */
  code: FaultCode;
  message: string;
  where: Where;
  /** What the user can do about it; empty where nothing helps. */
  hint: string;
}

/** Told ones come from what older versions stored, and from other programs; `Speech.tell` puts every fault into words. */
export type Fault = CodedFault | ToldFault;

/**
 * Makes a fault. Its words are in shared/messages, one file a part; the values are those that the sentence names.
 * @param sentence key of the sentence, which begins with the code
 */
export function fault<Key extends FaultKey>(
  sentence: Key,
  values: unknown extends FaultValues<Key> ? Record<string, never> : FaultValues<Key>,
  where: Where = {},
): CodedFault {
  return { code: sentence.split('.')[0] as FaultCode, sentence, values: values as Values, where };
}

/** Thrown where the caller cannot go on. Input that can be set aside is collected as `Fault` values instead. */
export class FaultError extends Error {
  readonly fault: Fault;

  constructor(fault: Fault) {
    // For people the fault is told; this line is for a stack trace.
    super('message' in fault ? fault.message : `${fault.sentence} ${JSON.stringify(fault.values)}`);
    this.name = 'FaultError';
    this.fault = fault;
  }

  get code(): FaultCode {
    return this.fault.code;
  }

  get where(): Where {
    return this.fault.where;
  }

  toFault(): Fault {
    return this.fault;
  }
}
