/**
 * Every fault code of the project with its meaning in one line. A code is never renamed or given another meaning.
 * Add yours to the block of your part; a test compares this table with the sources both ways.
 */
export const FAULT_CODES = {
  // Words, units and options
  DISTANCE_UNREADABLE: 'A distance has no number or no unit.',
  OPTION_UNREADABLE: 'The value of an option or form field cannot be read.',
  OPTION_UNKNOWN: 'An option does not exist.',
  OPTION_MISSING: 'An option that is needed was not given.',
  FILE_NOT_FOUND: 'A named file is not there or cannot be opened.',
  SETTINGS_UNREADABLE: 'Analysis settings name something unknown or hold a value of another kind.',
  OUTPUT_NOT_WRITABLE: 'A result could not be written.',
  JSON_UNREADABLE: 'A JSON file cannot be parsed.',
  COMMAND_UNKNOWN: 'A command does not exist.',

  // Signal processing, misuse
  FILTER_DESIGN_INVALID: 'A filter was asked for that cannot be made.',
  SIGNAL_NOT_FINITE: 'A filter was given missing or infinite values.',
  SENSOR_SCALE_DOUBTFUL: 'A sensor at rest does not read gravity.',
  SPECTRUM_INPUT_INVALID: 'A spectrum was asked of too few or missing values.',

  // HTTP and store
  REQUEST_INVALID: 'A request does not fit its schema.',
  SERVER_RUNNING: 'Another server works on the same data folder.',
  SERVER_PORT_TAKEN: 'The port is in use by another program.',
  PARTLY_FAILED: 'Some of many imports failed; the others are done.',
  LIST_UNREADABLE: 'A list of imports cannot be read.',
  DATABASE_UNREADABLE: 'The database file is damaged or is no database.',
  DATABASE_NEWER: 'The database was made by a newer version of the program.',
  DATABASE_BUSY: 'Another program held the database for too long.',
  BACKUP_FAILED: 'A backup could not be made or checked.',
  ORIGIN_REFUSED: 'A request came from the page of another site.',
  UPLOAD_TOO_LARGE: 'An upload is larger than allowed.',
  ROUTE_NOT_FOUND: 'No such address.',
  ATHLETE_NOT_FOUND: 'No athlete with this identifier.',
  GROUP_NOT_FOUND: 'No group with this identifier.',
  SESSION_NOT_FOUND: 'No session with this identifier.',
  REPETITION_NOT_FOUND: 'No repetition with this identifier.',
  RECORDING_NOT_FOUND: 'No recording with this identifier.',
  IMPORT_NOT_FOUND: 'No import with this identifier.',
  REANALYSIS_NOT_FOUND: 'No re-analysis with this identifier.',
  LAYOUT_NOT_FOUND: 'No saved layout with this identifier.',
  ANALYSIS_NOT_FOUND: 'No analysis with this identifier.',
  REPETITION_HAS_RECORDING: 'Files were meant for a repetition that has a recording already.',
  IMPORT_NOT_FAILED: 'Only a failed or cancelled import can be started again.',
  TIME_OF_SEVERAL_REPETITIONS: 'One time was given for a recording of several repetitions; it was left out.',
  TOO_MANY_SENSORS: 'More sensors than one a side.',
  SIDES_UNCLEAR: 'Two sensors that are not one left and one right.',
  LONG_RUN_CUT: 'A long recording had to be cut for the analysis where the athlete ran.',
  NO_RUNNING_FOUND: 'A recording holds no running.',
  TASK_CANCELLED: 'Work was cancelled before it was done.',
  WORKER_FAILED: 'An analysis thread stopped.',
  REPETITION_NOT_RECORDED: 'The repetition has no recording yet.',
  INTERNAL: 'A fault of the program itself.',

  // Coach
  WATCH_COUNT: 'More hand times than three watches give, or none.',
  SPRINT_TIME_MISSING: 'A sprint test without a time.',
  SPLITS_NOT_RISING: 'Splits that do not rise in distance and time up to the finish.',
  TECHNIQUE_POINT_UNKNOWN: 'No technique point of this name.',
  RATING_POINT_UNKNOWN: 'Nothing of this name can be rated.',
  REPORT_EMPTY: 'A report about nothing measured.',
  ERASE_NAME_DIFFERS: "The name typed to erase a person is not that person's.",
  COACH_RECORD_NOT_FOUND: 'No measure, technique point, sprint test or strength record with this identifier.',

  // View
  VIEW_FAILED: 'A page of the view failed.',
  SERVER_UNREACHABLE: 'The server did not answer.',
  ANSWER_UNREADABLE: 'The answer of the server is not in the expected shape.',

  // Radio and capture
  STREAM_DESCRIPTION_INVALID: 'A stream description of a sensor does not have the form it must have.',
  STREAM_SETTINGS_INVALID: "A chosen rate or range is not in the sensor's stream description.",
  PACKET_UNREADABLE: 'A packet from a sensor does not have the length or form that its description says.',
  PACKET_LOG_UNREADABLE: 'A file is not a packet log, or its header is damaged.',
  SENSOR_UNREACHABLE: 'A sensor could not be found or did not answer.',
  SENSOR_NOT_AS_DESCRIBED: 'A sensor does not offer the service or characteristic that its stream description names.',
  RADIO_UNAVAILABLE: 'There is no working Bluetooth on this machine at the moment.',
  DISK_FULL: 'Something could not be written because the disk is full.',
  CAPTURE_STATE: 'The capture cannot do this in its present state.',

  // Files in
  FILE_EMPTY: 'A file holds nothing.',
  FILE_NOT_TEXT: 'A file is a picture, archive, spreadsheet or other binary file.',
  FILE_CUT_SHORT: 'A compressed file breaks off; what came before was read.',
  GZIP_UNREADABLE: 'A gzip file cannot be unpacked.',
  LINE_TOO_LONG: 'A file has no line ends where rows should be.',
  NOT_A_RECORDING: 'A text file holds no table of numbers.',
  COLUMN_MISSING: 'A recording lacks an axis of acceleration.',
  ACCELERATION_WITHOUT_GRAVITY: 'A recording holds only acceleration from which gravity was taken off.',
  RATE_MISSING: 'A recording has neither time nor a sampling rate.',
  RATE_LOW: 'The sampling rate is too low for contact times.',
  RATE_DISAGREES: 'The stated sampling rate is not the one the time column shows.',
  LAYOUT_AMBIGUOUS: 'A file can be read in more than one way; the choices are listed.',
  LAYOUT_DOES_NOT_FIT: 'A layout names a column that the file does not have.',
  LAYOUT_UNREADABLE: 'A layout does not fit its schema.',
  TOO_MANY_BAD_ROWS: 'More rows cannot be read than may be set aside.',
  NO_SAMPLES: 'A file holds no usable rows.',
  ROWS_SET_ASIDE: 'Some rows cannot be read; they are listed.',
  ROWS_OUT_OF_ORDER: 'Some rows came late and were put in order.',
  ROWS_REPEATED: 'Some rows came twice; one of each was kept.',
  SAMPLES_LOST: 'Samples are missing; nothing was filled in.',
  CLOCK_RESTARTED: 'The clock of a sensor started again within a recording.',
  CLOCKS_NOT_ALIGNED: 'Two recordings cannot be put on one clock.',
  CLOCKS_UNCERTAIN: 'Two recordings were put on one clock with doubt.',
  IMPORT_CANCELLED: 'Reading a file was cancelled.',

  // Research export and agreement
  EXPORT_EMPTY: 'An export has nothing to hold, or nobody who agreed to it.',
  EXPORT_NOT_FOUND: 'No export with this identifier.',
  FOLDER_NOT_EMPTY: 'A folder to be written is there already and holds files.',
  DATASET_UNREADABLE: 'A data set to be imported is incomplete or not in the form it claims.',
  REFERENCE_UNREADABLE: 'A file of reference contacts or step lengths cannot be read.',
  REFERENCE_NOT_ALIGNED: 'Reference and sensors cannot be put on one clock.',
} as const satisfies Record<string, string>;

export type FaultCode = keyof typeof FAULT_CODES;
