import type { Fault } from '../../shared/fault.ts';
import { terminalSpeech } from './speech.ts';

/** A fault on standard error: what happened, then what to do. */
export function printFault(fault: Fault): void {
  const { code, message, hint } = terminalSpeech().tell(fault);
  process.stderr.write(`${code}: ${message}\n${hint ? `${hint}\n` : ''}`);
}
