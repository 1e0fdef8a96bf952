/** The shapes of a fault alone: sentences are made from them, and `fault.ts` knows the sentences. */
import type { FaultCode } from './fault-codes.ts';
import type { Values } from './messages/values.ts';
import type { CodedReason } from './reason-shape.ts';

/** Where it happened: file, line, column, field, identifiers. */
export type Where = Record<string, string | number | null>;

/** The same before it is told: parts of it may be reasons still. */
export type CodedWhere = Record<string, string | number | null | CodedReason>;

/** What went wrong for a user, as it is made and stored: a code and values, no words. */
export interface CodedFault {
  code: FaultCode;
  /** Key of its sentence in shared/messages: the code, with a word of its own where one code has several sentences. */
  sentence: string;
  values: Values;
  where: CodedWhere;
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
