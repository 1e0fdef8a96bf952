import type { AthleteFocusNow } from '../../../shared/schemas/coach/field-view.ts';

/** `Works on: short contact. Cue: “down under the hip”.` The cue is the coach's, or left out. */
export function focusSentence({ name, cue }: AthleteFocusNow): string {
  return `Works on: ${name.charAt(0).toLowerCase()}${name.slice(1)}.${cue === '' ? '' : ` Cue: “${cue}”.`}`;
}
