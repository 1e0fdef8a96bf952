import type { Measured } from './measured.ts';

/** Work that grows with something. */
export interface LongPath {
  name: string;
  what: string;
  unit: string;
  sizes: number[];
  /** Further sizes, where there is time and disk. */
  long: number[];
  /** Whether memory may grow with the size, or must stay as it is. */
  memory: 'flat' | 'grows';
  /** The most memory at any size, MB. */
  most_mb?: number;
  load: () => Promise<{ measure: (size: number) => Promise<Measured> }>;
}

export const LONG_PATHS: LongPath[] = [
  {
    name: 'file',
    what: 'a file of nine channels read to SI blocks, with checks and hash',
    unit: 'MB',
    sizes: [20, 60, 200, 600],
    long: [4000],
    memory: 'flat',
    most_mb: 300,
    load: () => import('./read-file.ts'),
  },
  {
    name: 'columns',
    what: 'a file of 500 rows and many columns looked at and read',
    unit: 'columns',
    sizes: [100, 300, 1000, 3000, 9000],
    long: [],
    memory: 'grows',
    load: () => import('./read-columns.ts'),
  },
  {
    name: 'recording',
    what: 'a recording of two feet at 500 Hz analysed, a sprint every half minute',
    unit: 's',
    sizes: [900, 1800, 3600, 7200],
    long: [14_400],
    memory: 'flat',
    load: () => import('./analyse-recording.ts'),
  },
  {
    name: 'sensors',
    what: 'ten minutes of live sensors at 400 Hz taken in, put in order and logged',
    unit: 'sensors',
    sizes: [2, 4, 8, 12],
    long: [],
    memory: 'grows',
    load: () => import('./live-sensors.ts'),
  },
  {
    name: 'capture',
    what: 'a capture of two sensors at 400 Hz taken in, put in order and logged',
    unit: 'min',
    sizes: [10, 20, 40, 80],
    long: [240],
    memory: 'flat',
    load: () => import('./long-capture.ts'),
  },
  {
    name: 'sessions',
    what: 'a page of 100 sessions asked for a hundred times',
    unit: 'sessions',
    sizes: [1000, 3000, 10_000, 30_000, 100_000],
    long: [],
    memory: 'flat',
    load: () => import('./list-sessions.ts'),
  },
  {
    name: 'reanalysis',
    what: 'stored sprints analysed again, two threads',
    unit: 'sprints',
    sizes: [50, 100, 200, 400],
    long: [2000],
    memory: 'flat',
    load: () => import('./analyse-again.ts'),
  },
  {
    name: 'contacts',
    what: 'a research export as tables, CSV and Parquet',
    unit: 'contacts',
    sizes: [10_000, 30_000, 100_000, 300_000, 1_000_000],
    long: [10_000_000],
    memory: 'flat',
    most_mb: 300,
    load: () => import('./export-contacts.ts'),
  },
];
