import { FaultError } from '../../shared/fault.ts';

/** The fault of a row that is not there (or is deleted). */
export function notFound(
  what: 'athlete' | 'group' | 'session' | 'repetition' | 'recording' | 'import' | 'analysis' | 'layout',
  id: number,
) {
  return new FaultError({
    code: `${what.toUpperCase()}_NOT_FOUND`,
    message: `There is no ${what} ${id}.`,
    where: { [`${what}_id`]: id },
    hint: `It may have been deleted. The list of them is current; deleted ones can be restored.`,
  });
}
