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

/**
 * A table as one Parquet file (Snappy), a row group a batch. Numbers carry as many decimals as the CSV, so that both files hold
 * the same values; the dictionary goes along as key-value metadata.
 */
export function* parquetParts(table: ExportTable): Generator<Uint8Array> {
  const parts = new PartWriter();
  const columnData = (batch: Batch | null) =>
    table.columns.map((column) => ({
      name: column.name,
      type: TYPES[column.type],
      nullable: !column.required,
      data: (batch?.values.get(column.name) ?? []).map((value) => parquetValue(column, value)),
    }));
  const parquet = new ParquetWriter({
    writer: parts.writer,
    schema: schemaFromColumnData({ columnData: columnData(null) }),
    kvMetadata: [{ key: 'dictionary', value: JSON.stringify(table.columns) }],
  });
  for (const batch of table.batches()) {
    // The schema says type and optional already.
    parquet.write({
      columnData: columnData(batch).map(({ name, data }) => ({ name, data })),
      rowGroupSize: batch.rows,
    });
    yield parts.take();
  }
  parquet.finish();
  yield parts.take();
}

/** Hands out what was written so far; offsets go on counting. */
class PartWriter {
  readonly writer = new ByteWriter();
  #taken = 0;

  take(): Uint8Array {
    const bytes = new Uint8Array(this.writer.getBuffer()).slice(this.#taken);
    this.#taken = this.writer.offset;
    return bytes;
  }
}

function parquetValue(column: ExportColumn, value: unknown): unknown {
  if (value === null) return null;
  if (column.type === 'boolean') return Boolean(value);
  if (column.type === 'number') return Number((value as number).toFixed(column.decimals ?? 4));
  return value;
}
