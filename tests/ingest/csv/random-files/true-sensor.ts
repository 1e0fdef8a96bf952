export interface TrueSensor {
  side: 'left' | 'right' | 'unknown';
  /** Rows that a reader may keep: seconds from the first of them, SI values, null where the cell is empty. */
  rows: { t: number; acc: (number | null)[]; gyr: (number | null)[] | null }[];
}
