/** Columns of a recording and of an analysis that an archive has as the club has them: what is sent, and what is compared. */
export const RECORDING_COLUMNS = [
  ...['source', 'side', 'mounting', 'start_utc', 'sampling_rate_hz', 'samples', 'duration_s', 'has_gyroscope'],
  ...['acc_range_mps2', 'gyr_range_radps', 'gaps', 'clock_offset_s', 'clock_drift', 'clock_offset_u_s', 'created_utc'],
];

export const ANALYSIS_COLUMNS = [
  ...['created_utc', 'version', 'method', 'settings', 'settings_sha256', 'raw_sha256', 'filters', 'result', 'summary'],
  ...['quality', 'faults'],
];
