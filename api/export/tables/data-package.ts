import { harmlessText, NEUTRALISED } from '../../csv-text.ts';
import { VERSION } from '../../version.ts';
import type { ExportColumn, ExportTable } from './column.ts';

/**
 * Describes the tables as an open data package: Table Schema with types, constraints and keys.
 * Specification: Data Package and Table Schema; written so that version 1 readers take it (profile names, single types).
 */
export function dataPackage(
  tables: ExportTable[],
  bytes: Map<string, { size: number; sha256: string }>,
  created_utc: string | null,
): object {
  return {
    profile: 'tabular-data-package',
    name: 'cinderlane-export',
    title: 'Ground contacts of sprint repetitions',
    ...(created_utc === null ? {} : { created: created_utc }),
    version: VERSION,
    sources: [{ title: `Cinderlane ${VERSION}` }],
    resources: tables.map((table) => {
      const path = `${table.name}.csv`;
      const file = bytes.get(path)!;
      return {
        profile: 'tabular-data-resource',
        name: table.name,
        title: table.title,
        path,
        format: 'csv',
        mediatype: 'text/csv',
        encoding: 'utf-8',
        bytes: file.size,
        hash: `sha256:${file.sha256}`,
        dialect: { delimiter: ',', lineTerminator: '\n', header: true, doubleQuote: true },
        schema: {
          fields: table.columns.map(fieldOf),
          missingValues: [''],
          primaryKey: table.primary_key,
          ...(table.foreign_keys.length > 0 ? { foreignKeys: foreignKeysOf(table) } : {}),
        },
      };
    }),
  };
}

function foreignKeysOf(table: ExportTable): object[] {
  return table.foreign_keys.map(({ fields, table: resource, reference }) => ({
    fields: fields.length === 1 ? fields[0] : fields,
    reference: { resource, fields: reference.length === 1 ? reference[0] : reference },
  }));
}

function fieldOf(column: ExportColumn): object {
  const constraints: Record<string, unknown> = {};
  if (column.required) constraints.required = true;
  if (column.enum) constraints.enum = [...column.enum];
  if (column.minimum !== undefined) constraints.minimum = column.minimum;
  if (column.maximum !== undefined) constraints.maximum = column.maximum;
  if (column.pattern) constraints.pattern = column.pattern;
  return {
    name: column.name,
    type: column.type,
    format: 'default',
    description: described(column),
    ...(column.unit ? { unit: column.unit } : {}),
    source: column.source,
    ...(Object.keys(constraints).length > 0 ? { constraints } : {}),
  };
}

/** The definition; of a column that holds what people wrote, what is done so that a spreadsheet does not run it. */
function described({ type, enum: words, pattern, definition }: ExportColumn): string {
  return type === 'string' && !words && !pattern ? `${definition} ${NEUTRALISED}` : definition;
}

/** The dictionary as a table of its own, for readers without a data package library. */
export function dictionaryCsv(tables: readonly Pick<ExportTable, 'name' | 'columns'>[]): string {
  const quote = (cell: string): string => {
    const text = harmlessText(cell);
    return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  const lines = tables.flatMap((table) =>
    table.columns.map((column) =>
      [table.name, column.name, column.type, column.unit, described(column), column.source].map(quote).join(','),
    ),
  );
  return `table,column,type,unit,definition,source\n${lines.join('\n')}\n`;
}
