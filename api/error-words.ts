import { FaultError } from '../shared/fault.ts';
import { type Notice, notice } from '../shared/notice.ts';
import { speechOf } from '../shared/messages/speeches.ts';

/** What went wrong, in words for a log or a line of messages: those of a fault in English, of any other error its own. */
export function errorWords(error: unknown): string {
  if (error instanceof FaultError) return speechOf('en').tell(error.fault).message;
  return error instanceof Error ? error.message : String(error);
}

/** The same as a notice, told in the language of whoever reads it. */
export function errorNotice(error: unknown): Notice {
  if (error instanceof FaultError) return notice('of_fault', { fault: error.fault });
  return errorWords(error);
}
