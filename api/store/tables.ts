import type { RepetitionFigures } from '../../shared/schemas/figures.ts';
import type { Generated } from 'kysely';

/** Shapes of the tables in migrations/001-base.sql and later ones of this part, for typed queries. Columns with a default are `Generated`. */

type Text = string;
type Json = string;

export interface AthletesTable {
  athlete_id: Generated<number>;
  uuid: Generated<Text>;
  name: Text;
  sex: Text | null;
  birth_date: Text | null;
  body_mass_kg: number | null;
  stature_m: number | null;
  leg_length_m: number | null;
  footwear: Text | null;
  notes: Generated<Text>;
  created_utc: Text;
  updated_utc: Text;
  deleted_utc: Text | null;
}

export interface GroupsTable {
  group_id: Generated<number>;
  uuid: Generated<Text>;
  name: Text;
  notes: Generated<Text>;
  created_utc: Text;
  updated_utc: Text;
  deleted_utc: Text | null;
}

export interface GroupMembersTable {
  group_id: number;
  athlete_id: number;
  order_number: number;
}

export interface SessionsTable {
  session_id: Generated<number>;
  uuid: Generated<Text>;
  session_date: Text;
  title: Generated<Text>;
  group_id: number | null;
  athlete_id: number | null;
  place: Text | null;
  surface: Text | null;
  temperature_c: number | null;
  pressure_hpa: number | null;
  notes: Generated<Text>;
  created_utc: Text;
  updated_utc: Text;
  deleted_utc: Text | null;
}

export interface RepetitionsTable {
  repetition_id: Generated<number>;
  uuid: Generated<Text>;
  session_id: number;
  athlete_id: number;
  set_number: Generated<number>;
  order_number: number;
  effort_percent: number | null;
  course_distance_m: number | null;
  course_time_s: number | null;
  splits: Generated<Json>;
  clock: Generated<Text>;
  timing_method: Text | null;
  start_style: Text | null;
  belt_speed_mps: number | null;
  wind_mps: number | null;
  surface: Text | null;
  footwear: Text | null;
  rest_s: number | null;
  notes: Generated<Text>;
  state: Generated<Text>;
  recorded_utc: Text | null;
  number_in_recording: number | null;
  analysis_id: number | null;
  fault: Json | null;
  created_utc: Text;
  updated_utc: Text;
  deleted_utc: Text | null;
}

export interface RawFilesTable {
  raw_file_id: Generated<number>;
  file_name: Text;
  bytes: Generated<number>;
  raw_sha256: Text | null;
  created_utc: Text;
}

export interface RawChunksTable {
  raw_file_id: number;
  sequence: number;
  encoding: 'gzip' | 'plain';
  bytes: Uint8Array;
}

export interface ImportsTable {
  import_id: Generated<number>;
  uuid: Generated<Text>;
  state: Text;
  step: Generated<Text>;
  progress: Generated<number>;
  athlete_id: number | null;
  session_id: number | null;
  fields: Generated<Json>;
  duplicate_of: number | null;
  fault: Json | null;
  faults: Generated<Json>;
  rejected_rows: Generated<Json>;
  rejected_count: Generated<number>;
  created_utc: Text;
  finished_utc: Text | null;
  tries: Generated<number>;
}

export interface ImportFilesTable {
  import_id: number;
  side: Text;
  raw_file_id: number;
  file_name: Text;
}

export interface RecordingsTable {
  recording_id: Generated<number>;
  uuid: Generated<Text>;
  athlete_id: number;
  import_id: number | null;
  raw_file_id: number | null;
  source: Text;
  file_name: Text;
  side: Text;
  mounting: Text;
  start_utc: Text | null;
  sampling_rate_hz: number;
  samples: number;
  duration_s: number;
  has_gyroscope: number;
  acc_range_mps2: number | null;
  gyr_range_radps: number | null;
  gaps: Generated<Json>;
  layout: Json | null;
  evidence: Json | null;
  clock_offset_s: Generated<number>;
  clock_drift: Generated<number>;
  clock_offset_u_s: Generated<number>;
  created_utc: Text;
}

export interface RecordingChunksTable {
  recording_id: number;
  channel: Text;
  sequence: number;
  first_sample: number;
  samples: number;
  bytes: Uint8Array;
}

export interface RepetitionRecordingsTable {
  repetition_id: number;
  recording_id: number;
}

/** The figures of lists (shared/schemas/figures.ts) are columns of their own. */
export interface AnalysesTable extends RepetitionFigures {
  analysis_id: Generated<number>;
  uuid: Generated<Text>;
  repetition_id: number;
  created_utc: Text;
  version: Text;
  method: Text;
  settings: Json;
  settings_sha256: Text;
  raw_sha256: Json;
  filters: Json;
  /** RepetitionResult without its contacts and summary. */
  result: Json;
  summary: Json;
  quality: Json;
  faults: Json;
}

export interface LayoutsTable {
  layout_id: Generated<number>;
  uuid: Generated<Text>;
  name: Text;
  fingerprint: Text;
  layout: Json;
  created_utc: Text;
  updated_utc: Text;
  deleted_utc: Text | null;
}

export interface SettingsTable {
  name: Text;
  value: Json;
}

export interface Tables {
  athletes: AthletesTable;
  groups: GroupsTable;
  group_members: GroupMembersTable;
  sessions: SessionsTable;
  repetitions: RepetitionsTable;
  raw_files: RawFilesTable;
  raw_chunks: RawChunksTable;
  imports: ImportsTable;
  import_files: ImportFilesTable;
  recordings: RecordingsTable;
  recording_chunks: RecordingChunksTable;
  repetition_recordings: RepetitionRecordingsTable;
  analyses: AnalysesTable;
  layouts: LayoutsTable;
  settings: SettingsTable;
}
