import { quantityDefinition } from '../../../shared/coach-quantities.ts';
import type { SideView } from '../../../shared/schemas/coach/course-view.ts';
import { directionWords } from './direction-words.ts';
import { capital, type LengthUnit, withUnit } from './quantity-words.ts';

/**
 * Which side is longer, and by how much more than usual: `Contact 9 ms longer on the left, 6 ms more than usual, beyond
 * chance.` Never a sign of injury.
 */
export function sideSentence(quantity: string, sides: Omit<SideView, 'sentence'>, length: LengthUnit = 'm'): string {
  const words = directionWords(quantity, quantityDefinition(quantity)?.label ?? quantity);
  const { difference, usual } = sides;
  const size = withUnit(quantity, Math.abs(difference), length);
  const side = difference > 0 ? 'left' : 'right';
  const now = sides.beyond_chance ? `${size} ${words.more} on the ${side}` : 'left and right alike within chance';
  if (usual === null)
    return `${capital(words.subject)} ${now}${sides.beyond_chance ? '; no sign of injury by itself' : ''}.`;
  const change = difference - usual;
  const toward = change > 0 ? 'left' : 'right';
  const amount = withUnit(quantity, Math.abs(change), length);
  if (sides.beyond_usual === null) {
    return `${capital(words.subject)} ${now}, as usual${sides.beyond_chance ? '; no sign of injury by itself' : ''}.`;
  }
  return `${capital(words.subject)} ${now}: ${amount} ${words.more} on the ${toward} than usual, beyond chance; no sign of injury by itself.`;
}
