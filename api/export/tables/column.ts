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

/** A table as columns of equal length. */
export interface ExportTable {
  name: string;
  title: string;
  columns: ExportColumn[];
  primary_key: string[];
  foreign_keys: { fields: string[]; table: string; reference: string[] }[];
  rows: number;
  values: Map<string, Cell[]>;
}

/** Builds a table row by row. */
export class TableBuilder {
  readonly #table: ExportTable;

  constructor(description: Omit<ExportTable, 'rows' | 'values'>) {
    this.#table = { ...description, rows: 0, values: new Map(description.columns.map(({ name }) => [name, []])) };
  }

  /** Adds a row; a column that is not named is empty. */
  add(row: Record<string, Cell | undefined>): void {
    for (const [name, values] of this.#table.values) values.push(row[name] ?? null);
    this.#table.rows++;
  }

  done(): ExportTable {
    return this.#table;
  }
}
