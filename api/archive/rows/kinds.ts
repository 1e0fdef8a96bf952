/**
 * What of a club's database travels to an archive and back as rows whose fields may change: which columns, whose they are, what they
 * refer to, and which of them tell who somebody is. Recordings, raw files, analyses and contacts never change and travel apart
 * (`exchange/`).
 */
export interface Kind {
  /** The table, which is also what the archive calls it. */
  table: string;
  /** Column of the local number of a row with an identifier of its own; null where the key columns name the row. */
  id: string | null;
  key: readonly string[];
  /** Columns that hold local numbers of other kinds' rows. */
  refs: Readonly<Record<string, string>>;
  /** Columns that leave in every programme. */
  open: readonly string[];
  /** Columns that name or describe people, or that people wrote: as they are where the programme has names, else sealed by the club. */
  hidden: readonly string[];
  /** Where the athlete's number stands; null for what is the club's. */
  whose: 'athlete_id' | 'through repetitions' | null;
  /** Only rows of this condition travel. */
  where?: string;
}

const made = ['created_utc', 'deleted_utc'];

/** Rows that others refer to come first. */
export const KINDS: readonly Kind[] = [
  {
    table: 'athletes',
    id: 'athlete_id',
    key: [],
    refs: {},
    open: ['sex', 'body_mass_kg', 'stature_m', 'leg_length_m', ...made],
    hidden: ['name', 'birth_date', 'footwear', 'notes'],
    whose: 'athlete_id',
  },
  own('research_consents', ['athlete_id'], ['status', 'status_date', 'legal_basis'], ['note', 'guardian']),
  { table: 'groups', id: 'group_id', key: [], refs: {}, open: made, hidden: ['name', 'notes'], whose: null },
  {
    ...own('group_members', ['group_id', 'athlete_id'], ['order_number'], []),
    refs: { group_id: 'groups', athlete_id: 'athletes' },
  },
  {
    table: 'sessions',
    id: 'session_id',
    key: [],
    refs: { group_id: 'groups', athlete_id: 'athletes' },
    open: ['session_date', 'surface', 'temperature_c', 'pressure_hpa', ...made],
    hidden: ['title', 'place', 'notes'],
    whose: null,
  },
  {
    table: 'session_plans',
    id: null,
    key: ['session_id'],
    refs: { session_id: 'sessions' },
    open: ['template', 'updated_utc'],
    hidden: ['sets'],
    whose: null,
  },
  {
    ...own('session_athletes', ['session_id', 'athlete_id'], ['order_number'], []),
    refs: { session_id: 'sessions', athlete_id: 'athletes' },
  },
  {
    table: 'athlete_measures',
    id: 'athlete_measure_id',
    key: [],
    refs: { athlete_id: 'athletes' },
    open: ['date', 'body_mass_kg', 'stature_m', 'leg_length_m', 'deleted_utc'],
    hidden: [],
    whose: 'athlete_id',
  },
  own('athlete_sensors', ['athlete_id', 'side'], ['mounting'], ['sensor_name']),
  {
    table: 'athlete_focuses',
    id: 'athlete_focus_id',
    key: [],
    refs: { athlete_id: 'athletes' },
    open: ['focus', 'from_date', 'to_date', 'deleted_utc'],
    hidden: ['note', 'cue'],
    whose: 'athlete_id',
  },
  // That somebody was hurt is nobody's business outside the club.
  own('athlete_returns', ['athlete_id'], [], ['since_date', 'note']),
  own('athlete_pseudonyms', ['athlete_id'], ['pseudonym'], ['day_shift']),
  {
    ...own('session_pseudonyms', ['session_id', 'athlete_id'], [], ['pseudonym']),
    refs: { session_id: 'sessions', athlete_id: 'athletes' },
  },
  own('retention_answers', ['athlete_id'], ['kept_utc'], ['reason']),
  {
    table: 'strength_records',
    id: 'strength_record_id',
    key: [],
    refs: { athlete_id: 'athletes' },
    open: ['date', 'lift', 'load_kg', 'load_unit', 'sets', 'repetitions', 'deleted_utc'],
    hidden: ['note'],
    whose: 'athlete_id',
  },
  {
    table: 'coach_focuses',
    id: null,
    key: ['key'],
    refs: {},
    open: ['quantities', 'deleted_utc'],
    hidden: ['name', 'meaning', 'cue'],
    whose: null,
  },
  {
    table: 'layouts',
    id: 'layout_id',
    key: [],
    refs: {},
    open: ['fingerprint', ...made],
    hidden: ['name', 'layout'],
    whose: null,
  },
  {
    table: 'settings',
    id: null,
    key: ['name'],
    refs: {},
    open: ['value'],
    hidden: [],
    whose: null,
    // Others belong to the machine: which sensor hangs where.
    where: "t.name = 'coach'",
  },
  {
    table: 'repetitions',
    id: 'repetition_id',
    key: [],
    refs: { session_id: 'sessions', athlete_id: 'athletes', analysis_id: 'analyses' },
    open: [
      ...['set_number', 'order_number', 'effort_percent', 'course_distance_m', 'course_time_s', 'splits', 'clock'],
      ...['timing_method', 'start_style', 'belt_speed_mps', 'wind_mps', 'surface', 'footwear', 'rest_s', 'state'],
      ...['recorded_utc', 'number_in_recording', ...made],
    ],
    hidden: ['notes', 'fault'],
    whose: 'athlete_id',
  },
  {
    table: 'imports',
    id: 'import_id',
    key: [],
    refs: { athlete_id: 'athletes', session_id: 'sessions', duplicate_of: 'imports' },
    open: ['state', 'step', 'progress', 'rejected_count', 'created_utc', 'finished_utc'],
    hidden: ['fields', 'fault', 'faults', 'rejected_rows'],
    whose: 'athlete_id',
    where: "t.state IN ('done', 'failed', 'cancelled') AND t.athlete_id IS NOT NULL",
  },
  ofRepetition('repetition_ratings', ['repetition_id', 'aspect'], ['rating', 'updated_utc'], ['note']),
  ofRepetition('rating_photos', ['repetition_id', 'aspect'], ['media_type', 'added_utc'], ['bytes']),
  {
    ...ofRepetition('film_ties', [], ['file_bytes', 'frame_s', 'marks', 'updated_utc'], ['file_name']),
    id: 'film_tie_id',
  },
  {
    table: 'sprint_tests',
    id: 'sprint_test_id',
    key: [],
    refs: { athlete_id: 'athletes', repetition_id: 'repetitions' },
    open: [
      ...['date', 'distance_m', 'distance_unit', 'start_style', 'timing_method', 'time_s', 'watches_s', 'splits'],
      ...['wind_mps', 'deleted_utc'],
    ],
    hidden: ['note'],
    whose: 'athlete_id',
  },
];

/** A table of one athlete whose rows its key columns name. */
function own(table: string, key: string[], open: string[], hidden: string[]): Kind {
  return { table, id: null, key, refs: { athlete_id: 'athletes' }, open, hidden, whose: 'athlete_id' };
}

function ofRepetition(table: string, key: string[], open: string[], hidden: string[]): Kind {
  return { table, id: null, key, refs: { repetition_id: 'repetitions' }, open, hidden, whose: 'through repetitions' };
}

/** @throws Error for a word that names no kind */
export function kindOf(table: string): Kind {
  const found = KINDS.find((kind) => kind.table === table);
  if (!found) throw new Error(`no kind ${table}`);
  return found;
}

/** Columns that may differ between two machines, the refs and keys among them. */
export function columnsOf(kind: Kind): string[] {
  return [...new Set([...Object.keys(kind.refs), ...kind.key, ...kind.open, ...kind.hidden])];
}

/**
 * Fields that are worked out of other tables and travel with a row: what those who may not read names need, and ties that have no
 * identifier of their own.
 */
export const DERIVED: Readonly<Record<string, { open: readonly string[]; hidden: readonly string[] }>> = {
  athletes: { open: ['birth_year', 'pseudonym'], hidden: [] },
  repetitions: { open: ['recordings'], hidden: [] },
  imports: { open: ['files'], hidden: ['file_names'] },
};

/** Whether a field of a kind tells who somebody is. */
export function isHidden(kind: Kind, field: string): boolean {
  return kind.hidden.includes(field) || (DERIVED[kind.table]?.hidden.includes(field) ?? false);
}
