import type { LayoutCorrection } from '../../../shared/schemas/layout.ts';
import type { Evidence } from '../columns/evidence.ts';
import type { ColumnName } from '../columns/name-column.ts';
import type { Motion } from '../motion/period-by-motion.ts';
import type { HeadTable } from '../text/head-table.ts';
import type { Preamble } from '../text/read-preamble.ts';

export interface TimeSituation {
  file: string;
  head: HeadTable;
  names: ColumnName[];
  /** Rows of one sensor only, where a side column mixes several. */
  rows: number[] | null;
  told: LayoutCorrection | undefined;
  rate_hz: number | undefined;
  preamble: Preamble;
  decimal_mark: string;
  evidence: Evidence[];
  /** What the sensor read, where its columns are known: the interval between rows is judged by it. */
  motion?: () => Motion | null;
}
