import type { Fault, ToldFault } from '../shared/fault.ts';

/**
 * A fault on its way into an answer. Schemas describe answers as they arrive, told in the language of the request; that is done
 * where answers leave (api/http/fault-answer.ts), so that nothing in between needs to know the language.
 */
export function toBeTold(fault: Fault): ToldFault;
export function toBeTold(faults: Fault[]): ToldFault[];
export function toBeTold(faults: Fault | Fault[]): ToldFault | ToldFault[] {
  return faults as ToldFault | ToldFault[];
}
