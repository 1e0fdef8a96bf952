import { ByteWriter, ParquetWriter, schemaFromColumnData } from 'hyparquet-writer';
import type { Batch, ExportColumn, ExportTable } from './column.ts';

const TYPES: Record<ExportColumn['type'], 'STRING' | 'DOUBLE' | 'INT32' | 'BOOLEAN'> = {
  string: 'STRING',
  date: 'STRING',
  datetime: 'STRING',
  integer: 'INT32',
  number: 'DOUBLE',
  boolean: 'BOOLEAN',
};

/** A table as one Parquet file: see `ParquetFile`. */
export function* parquetParts(table: ExportTable): Generator<Uint8Array> {
  const file = new ParquetFile(table.columns);
  for (const batch of table.batches()) yield file.write(batch);
  yield file.finish();
}

/**
 * A Parquet file (Snappy) made batch by batch, a row group each. Numbers carry as many decimals as the CSV, so that both files hold
 * the same values; the dictionary goes along as key-value metadata.
 */
export class ParquetFile {
  readonly #columns: ExportColumn[];
  readonly #parts = new PartWriter();
  readonly #parquet: ParquetWriter;

  constructor(columns: ExportColumn[]) {
    this.#columns = columns;
    this.#parquet = new ParquetWriter({
      writer: this.#parts.writer,
      schema: schemaFromColumnData({ columnData: this.#columnData(null) }),
      kvMetadata: [{ key: 'dictionary', value: JSON.stringify(columns) }],
    });
  }

  /** @returns the bytes that this batch added */
  write(batch: Batch): Uint8Array {
    // The schema says type and optional already. Where pages lie within a batch, which is one page a column, would only have to be kept.
    this.#parquet.write({
      columnData: this.#columnData(batch).map(({ name, data }) => ({ name, data, offsetIndex: false })),
      rowGroupSize: batch.rows,
    });
    return this.#parts.take();
  }

  /** @returns the bytes of the end, without which the file is none */
  finish(): Uint8Array {
    this.#parquet.finish();
    return this.#parts.take();
  }

  #columnData(batch: Batch | null) {
    return this.#columns.map((column) => ({
      name: column.name,
      type: TYPES[column.type],
      nullable: !column.required,
      data: (batch?.values.get(column.name) ?? []).map((value) => parquetValue(column, value)),
    }));
  }
}

/** Hands out what was written since the last time, and keeps none of it; offsets go on counting. */
class PartWriter {
  readonly writer = new ByteWriter();

  take(): Uint8Array {
    const bytes = this.writer.getBytes().slice();
    this.writer.index = 0;
    return bytes;
  }
}

function parquetValue(column: ExportColumn, value: unknown): unknown {
  if (value === null) return null;
  if (column.type === 'boolean') return Boolean(value);
  if (column.type === 'number') return Number((value as number).toFixed(column.decimals ?? 4));
  return value;
}
