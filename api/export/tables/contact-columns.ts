import {
  CONTACT_FIELDS,
  CONTACT_MARKS,
  CONTACT_QUANTITIES,
  type ContactField,
  type ContactMark,
} from '../../../shared/fields.ts';
import { fileDecimals } from '../../measuring/csv-number.ts';
import type { ExportColumn } from './column.ts';

/** Marks that stand before the quantities; the others stand behind them. `repetition_id` names the repetition here. */
const BEFORE: readonly string[] = ['step', 'side'];

/**
 * Columns of the contacts table: each field of shared/fields.ts, a quantity's standard uncertainty behind it.
 * @param quantities names of the quantities wanted; touchdown and toe-off are always there
 */
export function contactColumns(quantities: readonly string[] | undefined): ExportColumn[] {
  const always = ['touchdown_s', 'toe_off_s'];
  const wanted = CONTACT_QUANTITIES.filter((name) => !quantities || always.includes(name) || quantities.includes(name));
  const marks = Object.entries<ContactMark>(CONTACT_MARKS).filter(([name]) => name !== 'repetition');
  const markColumns = (before: boolean): ExportColumn[] =>
    marks.filter(([name]) => BEFORE.includes(name) === before).map(([name, mark]) => markColumn(name, mark));
  return [
    {
      name: 'repetition_id',
      type: 'integer',
      unit: '',
      required: true,
      minimum: 1,
      definition: 'Repetition the contact belongs to.',
      source: 'own definition',
    },
    ...markColumns(true),
    ...wanted.flatMap((name) => quantityColumns(name, CONTACT_FIELDS[name])),
    ...markColumns(false),
  ];
}

function quantityColumns(name: string, { unit, definition, source, required, u }: ContactField): ExportColumn[] {
  const decimals = fileDecimals(name);
  const column: ExportColumn = { name, type: 'number', unit, definition, source, decimals };
  if (required) column.required = true;
  if (!u) return [column];
  return [
    column,
    {
      name: `${name}_u`,
      type: 'number',
      unit,
      minimum: 0,
      decimals,
      definition: `Standard uncertainty of ${name}: one standard deviation of its error.`,
      source: 'JCGM 100:2008 (GUM)',
    },
  ];
}

const TYPES = { count: 'integer', share: 'number', instant: 'number', word: 'string', flag: 'boolean' } as const;

function markColumn(name: string, { kind, unit, definition, source, required, words }: ContactMark): ExportColumn {
  const column: ExportColumn = { name, type: TYPES[kind], unit, definition, source };
  if (required) column.required = true;
  if (words) column.enum = words;
  if (kind === 'count') column.minimum = 1;
  if (kind === 'share') Object.assign(column, { minimum: 0, maximum: 1 });
  if (TYPES[kind] === 'number') column.decimals = fileDecimals(name);
  return column;
}
