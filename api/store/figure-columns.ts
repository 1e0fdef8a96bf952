/** Columns of `analyses` that lists show: the fields of `RepetitionFigures` (shared/schemas/repetition.ts). */
export const FIGURE_COLUMNS = [
  'contacts',
  'speed_max_mps',
  'speed_max_mps_u',
  'contact_time_ms',
  'contact_time_ms_u',
  'contact_time_left_ms',
  'contact_time_right_ms',
  'flight_time_ms',
  'flight_time_ms_u',
  'step_rate_hz',
  'step_rate_hz_u',
  'step_length_m',
  'step_length_m_u',
  'duty_factor',
  'distance_m',
  'time_s',
] as const;
