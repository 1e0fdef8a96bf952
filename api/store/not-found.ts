import { FaultError, fault } from '../../shared/fault.ts';

/** Things of the store, by the word in their identifier, and the fault of each. */
const NOT_FOUND = {
  athlete: 'ATHLETE_NOT_FOUND',
  group: 'GROUP_NOT_FOUND',
  session: 'SESSION_NOT_FOUND',
  repetition: 'REPETITION_NOT_FOUND',
  recording: 'RECORDING_NOT_FOUND',
  import: 'IMPORT_NOT_FOUND',
  analysis: 'ANALYSIS_NOT_FOUND',
  layout: 'LAYOUT_NOT_FOUND',
} as const;

/** The fault of a row that is not there (or is deleted). */
export function notFound(what: keyof typeof NOT_FOUND, id: number): FaultError {
  return new FaultError(fault(NOT_FOUND[what], { id }, { [`${what}_id`]: id }));
}
