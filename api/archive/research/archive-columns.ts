import { CURVE_COLUMNS } from '../../measuring/curve-columns.ts';
import type { ExportColumn } from '../../export/tables/column.ts';
import { contactColumns } from '../../export/tables/contact-columns.ts';
import { ATHLETE_COLUMNS, REPETITION_COLUMNS, UUID_COLUMNS } from '../../export/tables/other-columns.ts';

const repetition_uuid: ExportColumn = { ...UUID_COLUMNS.repetition, required: true };

/** Not in the archive's rows, or named otherwise there. */
const NOT_THERE = new Set(['repetition_id', 'session', 'splits', 'notes', 'curve_from']);

/** Columns of the archive's contacts, those of an export with the repetition's identifier in the place of its number. */
export const ARCHIVE_CONTACT_COLUMNS: ExportColumn[] = [
  repetition_uuid,
  ...contactColumns(undefined).filter(({ name }) => name !== 'repetition_id'),
];

/** Columns of the archive's repetitions: those of an export, with what is known of the athlete beside them. */
export const ARCHIVE_REPETITION_COLUMNS: ExportColumn[] = [
  repetition_uuid,
  {
    name: 'athlete',
    type: 'string',
    unit: '',
    required: true,
    definition:
      'Pseudonym: the same in every export of one club; two clubs may have the same one for different people.',
    source: 'own definition',
  },
  ...ATHLETE_COLUMNS.filter(({ name }) => name !== 'athlete'),
  {
    name: 'age_years',
    type: 'integer',
    unit: 'a',
    minimum: 0,
    maximum: 89,
    definition:
      'Completed years at the session, 89 at most. The archive knows the year of birth alone and takes its last day: it may be one more.',
    source: 'own definition',
  },
  {
    name: 'session_date',
    type: 'date',
    unit: '',
    required: true,
    definition: 'Day of the session.',
    source: 'own definition',
  },
  ...REPETITION_COLUMNS.filter(({ name }) => !NOT_THERE.has(name) && name !== 'athlete').map((column) =>
    CURVE_COLUMNS.some(({ name }) => name === column.name) ? { ...column, required: false } : column,
  ),
];
