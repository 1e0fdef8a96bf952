import { exportedAge } from '../../export/exported-age.ts';
import type { Cell } from '../../export/tables/column.ts';
import { CURVE_COLUMNS } from '../../measuring/curve-columns.ts';

type Row = Record<string, unknown>;

/** Repetitions r with their session s and athlete p. */
export const FROM_REPETITIONS = `
  FROM archive.records r
    JOIN archive.records s ON s.club_id = r.club_id AND s.kind = 'sessions' AND s.record_id = (r.fields->>'session_id')::uuid
    JOIN archive.records p ON p.club_id = r.club_id AND p.kind = 'athletes' AND p.record_id = r.person_id`;

/** The same with their present result a. */
const FROM_RESULTS = `${FROM_REPETITIONS}
    JOIN archive.analyses a ON a.club_id = r.club_id AND a.analysis_id = (r.fields->>'analysis_id')::uuid`;

/** Those of a club ($1) that nobody deleted, and that fit a further condition. */
const ofClub = (condition: string) => `
  WHERE r.club_id = $1 AND r.kind = 'repetitions' AND NOT r.gone AND r.fields->>'deleted_utc' IS NULL
    AND s.fields->>'deleted_utc' IS NULL AND p.fields->>'deleted_utc' IS NULL
    AND ${condition}`;

/** Of one year ($2). */
export const OF_YEAR = "left(s.fields->>'session_date', 4)::int = $2";
/** Of some people ($2), from a day ($3) to another one ($4), each where it is given. */
export const OF_PEOPLE = `r.person_id = ANY($2::uuid[]) AND ($3::date IS NULL OR (s.fields->>'session_date')::date >= $3)
    AND ($4::date IS NULL OR (s.fields->>'session_date')::date <= $4)`;

/** Repetitions of a club ($1) with a result, with their athlete, session and recordings. */
export const repetitionsSql = (condition: string) => `
  SELECT r.fields || a.figures || jsonb_build_object(
      'repetition_uuid', r.record_id, 'athlete', coalesce(p.fields->>'pseudonym', '?'), 'sex', p.fields->'sex',
      'body_mass_kg', p.fields->'body_mass_kg', 'stature_m', p.fields->'stature_m', 'leg_length_m', p.fields->'leg_length_m',
      'birth_year', p.fields->'birth_year', 'session_date', s.fields->'session_date', 'version', a.version, 'method', a.method,
      'settings_sha256', a.settings_sha256, 'raw_sha256', a.raw_sha256, 'contacts_missing', a.summary::json->'contacts_missing',
      'mounting', m.mounting, 'sampling_rate_hz', m.sampling_rate_hz) AS fields,
    a.result
  ${FROM_RESULTS}
    LEFT JOIN LATERAL (
      SELECT min(mounting) AS mounting, min(sampling_rate_hz) AS sampling_rate_hz FROM archive.recordings c
        WHERE c.club_id = r.club_id AND c.recording_id IN (SELECT jsonb_array_elements_text(r.fields->'recordings')::uuid)
    ) m ON true
  ${ofClub(condition)}
  ORDER BY r.record_id`;

export function repetitionRow({ fields, result }: Row): Record<string, Cell> {
  const row = fields as Row;
  const { travel, first_movement_s, first_movement_s_u, speed_curve, kinetics } = JSON.parse(result as string) as Row;
  const fitted = { speed_curve: speed_curve ?? null, kinetics: kinetics ?? null };
  const curve = Object.fromEntries(CURVE_COLUMNS.map(({ name, value }) => [name, value(fitted as never)]));
  const hashes = JSON.parse(row.raw_sha256 as string) as (string | null)[];
  return {
    ...row,
    ...curve,
    ...{ travel, first_movement_s, first_movement_s_u },
    raw_sha256: hashes.filter(Boolean).join(' ') || null,
    age_years: exportedAge(row.birth_year as string | null, row.session_date as string),
  } as Record<string, Cell>;
}

/** Contacts of the same repetitions' present results. */
export const contactsSql = (condition: string) => `
  SELECT c.*, r.record_id AS repetition_uuid
  ${FROM_RESULTS}
    JOIN archive.contacts c ON c.club_id = a.club_id AND c.analysis_id = a.analysis_id AND c.day = a.day
  ${ofClub(condition)}
  ORDER BY r.record_id, c.step`;

export function contactRow({ assumes_symmetry, ...row }: Row): Record<string, Cell> {
  return { ...row, assumes_symmetry: assumes_symmetry === 1 } as Record<string, Cell>;
}
