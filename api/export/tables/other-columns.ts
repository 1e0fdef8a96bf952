import { quantityDefinition, REPEATABLE_QUANTITIES } from '../../../shared/coach-quantities.ts';
import { CONTACT_FIELDS } from '../../../shared/fields.ts';
import { RepetitionFigures } from '../../../shared/schemas/figures.ts';
import { CLOCK_STARTS, START_STYLES, TIMING_METHODS, TRAVEL_KINDS } from '../../../shared/words.ts';
import { CURVE_COLUMNS, PRIOR_COLUMNS } from '../../measuring/curve-columns.ts';
import type { ExportColumn } from './column.ts';

const OWN = 'own definition';

function text(name: string, definition: string, more: Partial<ExportColumn> = {}): ExportColumn {
  return { name, type: 'string', unit: '', definition, source: OWN, ...more };
}

function number(name: string, unit: string, definition: string, more: Partial<ExportColumn> = {}): ExportColumn {
  return { name, type: 'number', unit, definition, source: OWN, decimals: 4, ...more };
}

function integer(name: string, definition: string, more: Partial<ExportColumn> = {}): ExportColumn {
  return { name, type: 'integer', unit: '1', definition, source: OWN, ...more };
}

/** The mean of a quantity that is kept beside every analysis, its uncertainty behind it where that is kept, too. */
function figure(name: string): ExportColumn[] {
  const { label, unit, definition } = quantityDefinition(name)!;
  const mean = number(name, unit, name in CONTACT_FIELDS ? `Mean ${label}.` : definition);
  const twin = `${name}_u`;
  if (!(twin in RepetitionFigures.properties)) return [mean];
  return [mean, number(twin, unit, `Standard uncertainty of ${name}.`, { minimum: 0, source: 'JCGM 100:2008 (GUM)' })];
}

/** Identifiers that link a data set to the database, an archive and other sets: `uuid-columns.ts` says where they may stand. */
export const UUID_COLUMNS = {
  athlete: uuid('athlete_uuid', 'the athlete'),
  session: uuid('session_uuid', 'the session'),
  repetition: uuid('repetition_uuid', 'the repetition'),
};

function uuid(name: string, of: string): ExportColumn {
  const pattern = '^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$';
  return text(name, `Identifier of ${of}, the same on every machine (UUID).`, { source: 'RFC 9562', pattern });
}

export const ATHLETE_COLUMNS: ExportColumn[] = [
  text('athlete', 'Pseudonym: the same in every export of one database, without meaning outside it.', {
    required: true,
  }),
  text('sex', 'As given by the athlete; empty when not.'),
  number('body_mass_kg', 'kg', 'Last known body mass.', { minimum: 0 }),
  number('stature_m', 'm', 'Last known stature.', { minimum: 0 }),
  number('leg_length_m', 'm', 'Height of the greater trochanter above the ground.', { minimum: 0 }),
];

export const SESSION_COLUMNS: ExportColumn[] = [
  text('session', 'A session as one athlete had it.', { required: true }),
  text('athlete', 'The athlete.', { required: true }),
  text(
    'session_date',
    "Day of the session; moved by an amount of the athlete's own where dates are shifted, empty where nobody knows it.",
    { type: 'date' },
  ),
  integer('age_years', 'Completed years at the session, 89 at most.', { unit: 'a', minimum: 0, maximum: 89 }),
  text('surface', 'Surface as noted by the coach.'),
  number('temperature_c', 'Cel', 'Air temperature.'),
  number('pressure_hpa', 'hPa', 'Air pressure.'),
  text('title', 'Title of the session; only where free text was asked for.'),
  text('notes', 'Notes of the session; only where free text was asked for.'),
];

export const REPETITION_COLUMNS: ExportColumn[] = [
  integer('repetition_id', 'Identifier of the repetition in the source database.', {
    required: true,
    minimum: 1,
    unit: '',
  }),
  text('session', 'Session it belongs to.', { required: true }),
  text('athlete', 'The athlete.', { required: true }),
  integer('set_number', 'Set within the session.', { required: true, minimum: 1 }),
  integer('order_number', 'Running order within the session.', { required: true, minimum: 1 }),
  number('effort_percent', '%', "Effort in per cent of the athlete's full speed, as planned."),
  number('course_distance_m', 'm', 'Length of the course.', { minimum: 0 }),
  number('course_time_s', 's', 'Time over the course.', { minimum: 0 }),
  text('timing_method', 'How the time was taken. Hand and electronic times must not be mixed.', {
    enum: TIMING_METHODS,
  }),
  text('clock', 'What starts the clock.', { enum: CLOCK_STARTS }),
  text('start_style', 'How the repetition begins.', { enum: START_STYLES }),
  number('belt_speed_mps', 'm/s', 'Speed of the treadmill belt.'),
  number('wind_mps', 'm/s', 'Wind along the course, tail wind positive.'),
  text('surface', 'Surface as noted.'),
  text('footwear', 'Footwear as noted.'),
  text('mounting', 'Where the sensors sat.', { enum: ['foot', 'shank'] }),
  number('sampling_rate_hz', 'Hz', 'Rate of the slower of the sensors.'),
  text('travel', 'Over ground or on a belt.', { enum: TRAVEL_KINDS }),
  integer('contacts', 'Contacts found.', { required: true, minimum: 0 }),
  integer(
    'contacts_missing',
    'Contacts of the recorded feet that were run and not found, by the step times around them.',
    {
      minimum: 0,
    },
  ),
  text(
    'splits',
    'Times at distances as measured, such as 10m=2.103s, parted by blanks; their error is that of the timing method.',
  ),
  number('first_movement_s', 's', 'First movement, from the first sample of the recording.', { decimals: 6 }),
  number('first_movement_s_u', 's', 'Standard uncertainty of first_movement_s: one standard deviation of its error.', {
    minimum: 0,
    decimals: 6,
    source: 'JCGM 100:2008 (GUM)',
  }),
  text('figures_over', 'What the means in this row are over.', { enum: ['at speed', 'all contacts'] }),
  ...REPEATABLE_QUANTITIES.flatMap((name) => figure(name)),
  number('contact_time_left_ms', 'ms', 'Mean contact time of the left foot.'),
  number('contact_time_right_ms', 'ms', 'Mean contact time of the right foot.'),
  ...[...CURVE_COLUMNS, ...PRIOR_COLUMNS].map(({ name, unit, definition, source, decimals }) =>
    number(name, unit, definition, { source, decimals, ...(name.endsWith('_u') ? { minimum: 0 } : {}) }),
  ),
  text('curve_from', 'What the curve was fitted to.'),
  text('version', 'Version of the software that analysed it.', { required: true }),
  text('method', 'Method of detection and its revision.', { required: true }),
  text('settings_sha256', 'SHA-256 of the settings (canonical JSON).', { required: true, pattern: '^[0-9a-f]{64}$' }),
  text('raw_sha256', 'SHA-256 of the raw files, left before right, parted by a space.'),
  text('notes', 'Notes of the repetition; only where free text was asked for.'),
];
