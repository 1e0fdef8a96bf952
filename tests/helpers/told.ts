import type { Notice } from '../../shared/notice.ts';
import { tellAll } from '../../shared/messages/tell-all.ts';
import type { Reason } from '../../shared/reason.ts';
import { type Fault, FaultError, type ToldFault } from '../../shared/fault.ts';
import type { Language } from '../../shared/messages/languages.ts';
import { speechOf } from '../../shared/messages/speeches.ts';

/** A fault as people read it. */
export function told(fault: Fault | null | undefined, language: Language = 'en'): ToldFault {
  if (!fault) throw new Error('there is no fault to tell');
  return speechOf(language).tell(fault);
}

/** What people read of the fault that this throws: message and hint. */
export function refusalOf(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    if (!(error instanceof FaultError)) throw error;
    const { message, hint } = told(error.fault);
    return `${message} ${hint}`;
  }
  throw new Error('nothing was refused');
}

/** A reason as people read it. */
export function wordsOf(reason: Reason | null | undefined, language: Language = 'en'): string {
  return reason ? speechOf(language).because(reason) : '';
}

/** A notice as people read it. */
export function said(notice: Notice, language: Language = 'en'): string {
  return speechOf(language).notice(notice);
}

/** An answer as it leaves the server: every fault, reason and notice in it in words. */
export function inWords<T>(answer: T, language: Language = 'en'): T {
  return tellAll(answer, speechOf(language));
}
