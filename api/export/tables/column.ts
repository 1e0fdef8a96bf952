/** One column of an exported table: what it is called, what it holds, and the dictionary entry that says so. */
export interface ExportColumn {
  name: string;
  type: 'string' | 'integer' | 'number' | 'boolean' | 'date' | 'datetime';
  unit: string;
  definition: string;
  source: string;
  /** Never empty. */
  required?: boolean;
  enum?: readonly string[];
  minimum?: number;
  maximum?: number;
  pattern?: string;
  /** Decimals in CSV; Parquet carries the full value. */
  decimals?: number;
}

export type Cell = string | number | boolean | null;

/** Some rows of a table as columns of equal length. */
export interface Batch {
  rows: number;
  values: Map<string, Cell[]>;
}

/** A table whose rows come in batches, so that a table of any length fits in memory. */
export interface ExportTable {
  name: string;
  title: string;
  columns: ExportColumn[];
  primary_key: string[];
  foreign_keys: { fields: string[]; table: string; reference: string[] }[];
  /** Number of all rows. */
  rows: number;
  /** Reads the rows, from the first, each time it is called. */
  batches(): Iterable<Batch>;
}

/** Some 4 MB of contacts; the end of a Parquet file describes every column of every batch, so fewer would cost more there. */
const ROWS_A_BATCH = 4000;

/** Gathers rows into batches; a column that a row does not name is empty. */
export function inBatches(columns: ExportColumn[], rows: Iterable<Record<string, Cell | undefined>>): Generator<Batch> {
  function* cells(): Generator<Cell[]> {
    for (const row of rows) yield columns.map(({ name }) => row[name] ?? null);
  }
  return cellsInBatches(columns, cells());
}

/** Gathers rows into batches that come as cells in the order of the columns: far quicker than by name where rows are many. */
export function* cellsInBatches(columns: ExportColumn[], rows: Iterable<readonly Cell[]>): Generator<Batch> {
  let values: Cell[][] = columns.map(() => []);
  const batch = (): Batch => ({
    rows: values[0].length,
    values: new Map(columns.map(({ name }, c) => [name, values[c]])),
  });
  for (const row of rows) {
    for (let c = 0; c < values.length; c++) values[c].push(row[c]);
    if (values[0].length < ROWS_A_BATCH) continue;
    yield batch();
    values = columns.map(() => []);
  }
  if (values[0].length > 0) yield batch();
}

/** Rows as one batch; a column that a row does not name is empty. */
export function batchOf(columns: ExportColumn[], rows: Record<string, Cell | undefined>[]): Batch {
  return {
    rows: rows.length,
    values: new Map(columns.map(({ name }) => [name, rows.map((row) => row[name] ?? null)])),
  };
}

/** A table of few rows that are there already. */
export function tableOf(
  description: Omit<ExportTable, 'rows' | 'batches'>,
  rows: Record<string, Cell | undefined>[],
): ExportTable {
  return { ...description, rows: rows.length, batches: () => inBatches(description.columns, rows) };
}
