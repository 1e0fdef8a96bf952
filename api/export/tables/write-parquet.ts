import { parquetWriteBuffer } from 'hyparquet-writer';
import type { ExportColumn, ExportTable } from './column.ts';

const TYPES: Record<ExportColumn['type'], 'STRING' | 'DOUBLE' | 'INT32' | 'BOOLEAN'> = {
  string: 'STRING',
  date: 'STRING',
  datetime: 'STRING',
  integer: 'INT32',
  number: 'DOUBLE',
  boolean: 'BOOLEAN',
};

/**
 * A table as one Parquet file (Snappy). Numbers carry as many decimals as the CSV, so that both files hold the same values;
 * the dictionary goes along as key-value metadata.
 */
export function parquetBytes(table: ExportTable): Uint8Array {
  const buffer = parquetWriteBuffer({
    columnData: table.columns.map((column) => ({
      name: column.name,
      type: TYPES[column.type],
      nullable: !column.required,
      data: table.values.get(column.name)!.map((value) => parquetValue(column, value)),
    })),
    kvMetadata: [{ key: 'dictionary', value: JSON.stringify(table.columns) }],
  });
  return new Uint8Array(buffer);
}

function parquetValue(column: ExportColumn, value: unknown): unknown {
  if (value === null) return null;
  if (column.type === 'boolean') return Boolean(value);
  if (column.type === 'number') return Number((value as number).toFixed(column.decimals ?? 4));
  return value;
}
