import { speechOf } from '../../shared/messages/speeches.ts';
import { tellAll } from '../../shared/messages/tell-all.ts';
import type { Reason } from '../../shared/reason.ts';

/** Files are read by programs and by people of any tongue: their reasons are in English. */
const FILE_SPEECH = speechOf('en');

/** A reason as the cell of a file; empty where there is none. */
export function reasonText(reason: Reason | undefined): string {
  return reason === undefined ? '' : String(tellAll(reason as unknown, FILE_SPEECH));
}
