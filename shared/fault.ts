import type { FaultCode } from './fault-codes.ts';
import type { CodedFault, CodedWhere, Fault } from './fault-shape.ts';
import type { FaultKey, FaultValues } from './messages/en/faults.ts';
import type { Values } from './messages/values.ts';

export type { CodedFault, Fault, ToldFault, Where } from './fault-shape.ts';

/**
 * Makes a fault. Its words are in shared/messages, one file a part; the values are those that the sentence names.
 * @param sentence key of the sentence, which begins with the code
 */
export function fault<Key extends FaultKey>(
  sentence: Key,
  values: unknown extends FaultValues<Key> ? Record<string, never> : FaultValues<Key>,
  where: CodedWhere = {},
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

  get where(): CodedWhere {
    return this.fault.where;
  }

  toFault(): Fault {
    return this.fault;
  }
}
