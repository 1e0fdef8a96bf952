import type { ContactField } from './field.ts';

/**
 * Quantities that came after the columns of the files were fixed. A new one goes to the end of this dictionary, whatever
 * it is about: files only grow at their end.
 */
export const ADDED_FIELDS = {} as const satisfies Record<string, ContactField>;
