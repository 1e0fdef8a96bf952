import type { Clock } from './clocks.ts';
import type { Draw } from './draw.ts';

/** What goes wrong between sensor and file. */
export interface Damage {
  kind: string;
  /** Whether a reader can still give all that is there, must say something about it, or must not read it. */
  expect: 'read' | 'tell' | 'refuse';
}

export interface DamagedRows {
  /** Rows of the samples in the order in which the file has them; a row may come twice or not at all. */
  order: number[];
  /** Rows whose values are zeros, or those of the row before: lost on the way and filled in. */
  filled: Map<number, 'zero' | 'held'>;
  /** Cells that are empty: row -> channel. */
  empty: Map<number, number>;
  cutLastRow: boolean;
}

export function damaged(
  draw: Draw,
  count: number,
  clock: Clock,
  unitOfRates: boolean,
  hasGyr: boolean,
  bothFeet: boolean,
): { damage: Damage; rows: DamagedRows } {
  const rows: DamagedRows = {
    order: Array.from({ length: count }, (_, i) => i),
    filled: new Map(),
    empty: new Map(),
    cutLastRow: false,
  };
  // Loss shows where a clock tells it; rows that only follow each other hide it from everybody.
  const told = clock.names.length > 0 && !/row|since|stamps|no time|rate above/.test(clock.kind);
  const kind = draw.weighed([
    ['none', 20],
    ['rows lost', told ? 3 : 0],
    ['cells empty', 2],
    ['rows twice', told && !bothFeet ? 1.5 : 0],
    ['packets swapped', told && !bothFeet ? 1.5 : 0],
    ['last row cut', bothFeet ? 0 : 1.5],
    ['zeros for lost packets', 1.5],
    ['last value held for lost packets', 1.5],
    ['gyroscope of zeros', hasGyr ? 1 : 0],
    ['gyroscope axis stuck', hasGyr ? 1 : 0],
    ['acceleration axis stuck', 1],
    ['degrees named, radians written', unitOfRates ? 1 : 0],
    ['an axis missing', 1],
    ['gravity taken off', 1],
  ] as const);
  const middle = Math.floor(count * draw.between(0.35, 0.6));
  const length = draw.whole(6, 25);
  if (kind === 'rows lost') rows.order.splice(middle, length);
  if (kind === 'rows twice') rows.order.splice(middle, 0, ...rows.order.slice(middle, middle + 1));
  if (kind === 'packets swapped') {
    const packet = rows.order.splice(middle, 5);
    rows.order.splice(middle + 5, 0, ...packet);
  }
  if (kind === 'cells empty') for (let i = 0; i < 5; i++) rows.empty.set(middle + 7 * i, draw.whole(0, hasGyr ? 5 : 2));
  if (kind === 'last row cut') rows.cutLastRow = true;
  if (kind === 'zeros for lost packets' || kind === 'last value held for lost packets') {
    for (let burst = 0; burst < 4; burst++) {
      for (let i = 0; i < length; i++)
        rows.filled.set(middle + burst * (length + 40) + i, kind.startsWith('zeros') ? 'zero' : 'held');
    }
  }
  const tell = /stuck|zeros$|radians/.test(kind);
  const refuse = kind === 'an axis missing' || kind === 'gravity taken off';
  return { damage: { kind, expect: refuse ? 'refuse' : tell ? 'tell' : 'read' }, rows };
}
