import type { Aim } from '../../../shared/coach-words.ts';
import type { Focus } from '../../../shared/schemas/coach/focus.ts';
import { FOCUSES } from '../focuses.ts';

/** Which way a quantity should go for one athlete. */
export type AimOf = (quantity: string) => Aim;

const LISTED = new Map<string, Aim>([
  ...FOCUSES.flatMap((focus) => focus.quantities.map(({ quantity, aim }) => [quantity, aim] as const)),
  ['time_s', 'lower'],
]);

/** The aims of the athlete's focus come first, then those of the list. */
export function aimsWith(focus: Focus | null): AimOf {
  const own = new Map(focus?.quantities.map(({ quantity, aim }) => [quantity, aim]));
  return (quantity) => own.get(quantity) ?? LISTED.get(quantity) ?? 'no fixed direction';
}

/**
 * Is a change in this direction the wanted one?
 * @param level the quantity's usual value: tells which way zero lies
 * @returns null where neither direction is wanted
 */
export function isWanted(aim: Aim, beyond: 'above' | 'below', level: number): boolean | null {
  if (aim === 'lower') return beyond === 'below';
  if (aim === 'higher') return beyond === 'above';
  if (aim === 'nearer zero') return level > 0 ? beyond === 'below' : beyond === 'above';
  return null;
}
