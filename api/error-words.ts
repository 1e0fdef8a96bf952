import { FaultError } from '../shared/fault.ts';
import { speechOf } from '../shared/messages/speeches.ts';

/** What went wrong, in words for a log or a line of messages: those of a fault in English, of any other error its own. */
export function errorWords(error: unknown): string {
  if (error instanceof FaultError) return speechOf('en').tell(error.fault).message;
  return error instanceof Error ? error.message : String(error);
}
