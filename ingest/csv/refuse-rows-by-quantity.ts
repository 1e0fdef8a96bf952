import { FaultError } from '../../shared/fault.ts';
import type { HeadTable } from './head-table.ts';
import type { Triple } from './infer-sensors.ts';
import { type ColumnName, nameColumn } from './name-column.ts';

/** Acceleration in some rows and angular rate in others: two streams woven into one table. */
export function refuseRowsByQuantity(acc: Triple, gyr: Triple, head: HeadTable, file: string): void {
  let accAlone = 0;
  let gyrAlone = 0;
  for (let row = 0; row < head.rows; row++) {
    const [hasAcc, hasGyr] = [acc, gyr].map((triple) =>
      triple.some(({ index }) => !Number.isNaN(head.numbers[index][row])),
    );
    if (hasAcc && !hasGyr) accAlone++;
    if (hasGyr && !hasAcc) gyrAlone++;
  }
  if (accAlone < 0.2 * head.rows || gyrAlone < 0.2 * head.rows) return;
  throw rowsByQuantity(file, acc[0].name, gyr[0].name);
}

/** A column whose cells name the quantity of their row, such as ACC and GYR. */
export function refuseQuantityColumn(names: ColumnName[], head: HeadTable, file: string): void {
  for (const { index } of names) {
    const words = [...new Set(head.text.map((cells) => cells[index] ?? ''))].filter((word) => /\p{L}/u.test(word));
    if (words.length < 2 || words.length > 8) continue;
    const word = (kind: 'acc' | 'gyr') => words.find((text) => nameColumn(0, text, '').kind === kind);
    const [acc, gyr] = [word('acc'), word('gyr')];
    if (acc && gyr) throw rowsByQuantity(file, acc, gyr);
  }
}

function rowsByQuantity(file: string, acc: string, gyr: string): FaultError {
  return new FaultError({
    code: 'ROWS_BY_QUANTITY',
    message: `${file}: acceleration ("${acc}") and angular rate ("${gyr}") stand in rows of their own; expected both in every row. The file was refused.`,
    where: { file },
    hint: 'Export both side by side, at one rate.',
  });
}
