import type { CodedReason, Reason } from '../../../reason-shape.ts';
import type { Speech } from '../../say.ts';
import type { FaultRoom } from '../../sentence.ts';

type File = { file: string };
type Row = { line: number; column: string | null; found: Reason; expected: Reason };
const firstRow = ({ line, column, found, expected }: Row, say: Speech): string =>
  `first: line ${line}${column ? `, column "${column}"` : ''}: found ${say.because(found)}, expected ${say.because(expected)}`;

/** Formats that people mistake for a table. */
const FORMATS: Record<string, string> = {
  bzip2: 'a bzip2 archive',
  xz: 'an xz archive',
  zstandard: 'a Zstandard archive',
  '7-zip': 'a 7-Zip archive',
  rar: 'a RAR archive',
  tar: 'a tar archive',
  pdf: 'a PDF document',
  sqlite: 'an SQLite database',
  parquet: 'a Parquet file',
  arrow: 'an Arrow or Feather file',
  hdf5: 'an HDF5 file (MATLAB 7.3 writes them, too)',
  matlab: 'a MATLAB file',
  xls: 'an old Excel workbook (.xls), or one with a password',
  xlsb: 'a binary workbook (.xlsb)',
  ods: 'an OpenDocument workbook (.ods)',
  docx: 'a text document (.docx)',
  c3d: 'a C3D file of motion capture',
  png: 'a PNG picture',
  jpeg: 'a JPEG picture',
  film: 'a film',
  zip: 'a zip archive',
  lzma: 'an LZMA archive',
  compress: 'a file packed by compress (.Z)',
  lz4: 'an LZ4 archive',
  snappy: 'a Snappy archive',
  rtf: 'a formatted document (.rtf)',
  duckdb: 'a DuckDB database',
  avro: 'an Avro file',
  npy: 'a NumPy array (.npy)',
  npz: 'NumPy arrays (.npz)',
  pickle: 'a Python pickle',
  r: 'an R data file (.rds, .RData)',
  spss: 'an SPSS data file (.sav)',
  stata: 'a Stata data file (.dta)',
  sas: 'a SAS data file',
  tdms: 'a TDMS measurement file',
  mdf: 'an MDF measurement file',
  xdf: 'an XDF file of streams',
  edf: 'a BDF recording of biosignals',
  rosbag: 'a ROS bag',
  mcap: 'an MCAP log',
  'utf-32': 'text in UTF-32',
  gif: 'a GIF picture',
  webp: 'a WebP picture',
  heic: 'a HEIC picture',
  wave: 'a sound file (.wav)',
};

/** Files of recordings: why one was refused, and what was met in one that was read. */
export const fileFaults = {
  FILE_EMPTY: {
    message: ({ file }: File) => `${file}: the file is empty; expected rows of a recording. The file was refused.`,
    hint: 'Copy the recording from the sensor again.',
  },
  NO_SAMPLES: {
    message: ({ file, rows, rejected }: File & { rows: number; rejected: number }) =>
      `${file}: found ${rows} usable rows (${rejected} set aside); at least two are needed. The file was refused.`,
    hint: 'Check that the recording holds data below its header.',
  },
  'FILE_NOT_TEXT.unpack': notText('Unpack it first, or compress with gzip, which is read as it is.'),
  'FILE_NOT_TEXT.export': notText('Export the recording from there as CSV.'),
  'FILE_NOT_TEXT.printed': notText('A printed table cannot be read: export the recording itself as CSV.'),
  'FILE_NOT_TEXT.write_table': notText('Save it from there with writetable or writematrix as CSV.'),
  'FILE_NOT_TEXT.write_csv': notText(
    'Save it from there as CSV; in Python, for example, read it as a data frame and write it with to_csv(index=False).',
  ),
  'FILE_NOT_TEXT.write_csv_r': notText('Save it from R with write.csv(data, "recording.csv", row.names = FALSE).'),
  'FILE_NOT_TEXT.save_text': notText(
    'Save it from Python with numpy.savetxt("recording.csv", array, delimiter=",", header="names,of,columns", comments="").',
  ),
  'FILE_NOT_TEXT.save_utf8': notText('Save it as UTF-8.'),
  'FILE_NOT_TEXT.save_sheet': notText('Save its sheet as CSV or as .xlsx.'),
  'FILE_NOT_TEXT.picture': notText('A picture of a table cannot be read: export the recording itself as CSV.'),
  'FILE_NOT_TEXT.film': notText('Films belong to the page of film, not here.'),
  'FILE_NOT_TEXT.archive': notText('Unpack it first, or compress with gzip, which is read as it is.'),
  'FILE_NOT_TEXT.binary': {
    message: ({ file, bytes, of }: File & { bytes: number; of: number }) =>
      `${file}: found ${bytes} bytes that no text has, in the first ${of}; expected a text file of comma-separated values. The file was refused.`,
    hint: 'Export the recording as CSV.',
  },
  WORKBOOK_UNREADABLE: {
    message: ({ file, why }: File & { why: string }) =>
      `${file}: looks like a workbook (.xlsx) but cannot be opened (${why}); nothing was read.`,
    hint: 'Copy the file again; if that does not help, open it in a spreadsheet program and save its sheet as CSV.',
  },
  WORKBOOK_TOO_LARGE: {
    message: ({ file }: File) => `${file}: a workbook larger than can be held in memory. The file was refused.`,
    hint: 'Save its sheet as CSV, which is read at any size.',
  },
  SHEETS_NOT_READ: {
    message: ({ file, sheet, others }: File & { sheet: string; others: readonly string[] }) =>
      `${file}: the first sheet ("${sheet}") was read; the others were not: ${others.map((name) => `"${name}"`).join(', ')}.`,
    hint: 'If a sensor or its angular rate lies on another sheet, put all columns on one sheet, or save the sheets as CSV.',
  },
  LINE_TOO_LONG: {
    message: ({ file, bytes }: File & { bytes: number }) =>
      `${file}: no line ends within ${bytes} bytes; expected one row of a recording a line. The file was refused.`,
    hint: 'Check that this is the CSV export of the recording: JSON in one line and a table on its side (a row for every quantity) are not read.',
  },
  IMPORT_CANCELLED: {
    message: ({ file }: File) => `${file}: reading was cancelled; nothing was kept.`,
    hint: '',
  },
  GZIP_UNREADABLE: {
    message: ({ file, why }: File & { why: string }) =>
      `${file}: starts like a gzip file but cannot be unpacked (${why}); nothing was read.`,
    hint: 'Copy the file from the sensor again, or unpack it first.',
  },
  'RATE_MISSING.no_time': {
    message: ({ file }: File) =>
      `${file}: the layout reads rows without time, and no sampling rate was given. The file was refused.`,
    hint: 'Give the sampling rate, for example --rate 500hz.',
  },
  'RATE_MISSING.stands_still': {
    message: ({ file }: File) =>
      `${file}: found stamps that are the same in nearly every row; expected a time that goes on with the rows. The file was refused.`,
    hint: 'Export the time with fractions of a second, or leave it out and give the sampling rate, for example --rate 500hz.',
  },
  'RATE_MISSING.backward': {
    message: ({ file, column, from }: File & { column: string; from: number }) =>
      `${file}: found a time that runs backward ("${column}", from ${from} down); expected the earliest row first. The file was refused.`,
    hint: 'Sort the rows by time, the earliest first.',
  },
  'RATE_MISSING.no_use': {
    message: ({ file, column, first, last }: File & { column: string; first: string; last: string }) =>
      `${file}: found "${column}", from "${first}" to "${last}" in the rows looked at, which gives no instant to every row, and no sampling rate; one of them is needed. The file was refused.`,
    hint: 'Give the sampling rate, for example --rate 500hz, or export the time in full: seconds with their decimals.',
  },
  'RATE_MISSING.no_column': {
    message: ({ file, columns }: File & { columns: string }) =>
      `${file}: found no column of time (${columns}) and no sampling rate; one of them is needed. The file was refused.`,
    hint: 'Give the sampling rate, for example --rate 500hz.',
  },
  'ROWS_BY_QUANTITY.apart': {
    message: ({ file }: File) =>
      `${file}: acceleration and angular rate stand in rows of their own, millions of rows apart; expected them to alternate. The file was refused.`,
    hint: 'Sort the rows by time, or export both quantities side by side.',
  },
  'ROWS_BY_QUANTITY.no_time': {
    message: ({ file }: File) =>
      `${file}: acceleration and angular rate stand in rows of their own, and there is no column of time to put them together by. The file was refused.`,
    hint: 'Export the time with every row, or both quantities side by side.',
  },
  TOO_MANY_BAD_ROWS: tooMany(
    (_: object) =>
      'Look at the rows named; if a word stands for a missing value, add it to missing_values in a layout.',
  ),
  'TOO_MANY_BAD_ROWS.another_table': tooMany(
    ({ line, text }: { line: number; text: string }) =>
      `From line ${line} on another table seems to begin ("${text}"): give each table as a file of its own.`,
  ),
  LAYOUT_AMBIGUOUS: {
    message: ({ file, found, choices }: { file: string; found: CodedReason; choices: readonly CodedReason[] }, say) =>
      `${file}: found ${say.because(found)}.${choices.length > 0 ? ` It may be ${choices.map((choice) => say.because(choice)).join(', or ')}.` : ''} Nothing was read, because the file does not tell which.`,
    hint: ({ hint }: { hint: CodedReason }, say) => say.because(hint),
  },
  LAYOUT_UNREADABLE: {
    message: ({ file, why }: File & { why: string }) => `${file}: this is no layout (${why}). It was not used.`,
    hint: 'Export a layout and change that, or give a correction such as {"acc_unit":"g"}.',
  },
  LAYOUT_DOES_NOT_FIT: {
    message: ({
      file,
      column,
      names,
      count,
    }: File & { column: string | number; names: readonly string[]; count: number }) =>
      `${file}: the layout speaks of column ${JSON.stringify(column)}; the file has ${names.length > 0 ? names.join(', ') : `${count} columns without names`}. The file was refused.`,
    hint: 'Correct the column in the layout, or read the file without it.',
  },
  SEVERAL_SAMPLES_A_ROW: {
    message: ({ file, samples, column }: File & { samples: number; column: string }) =>
      `${file}: found ${samples} samples of acceleration side by side in one row ("${column}", ...); expected one sample a row. The file was refused.`,
    hint: 'Export one row a sample.',
  },
  'COLUMN_MISSING.axis': {
    message: ({ file, partial, lacking }: File & { partial: string; lacking: string }) =>
      `${file}: found acceleration in ${partial} but no axis ${lacking}; all of x, y and z are needed. The file was refused.`,
    hint: 'Export the recording with all three axes of acceleration, or name the columns in a layout.',
  },
  'COLUMN_MISSING.acceleration': {
    message: ({ file, columns, more }: File & { columns: string; more: boolean }) =>
      `${file}: found the columns ${columns}${more ? ', ...' : ''}; expected acceleration in x, y and z. The file was refused.`,
    hint: 'Export the recording with all three axes of acceleration, or name the columns in a layout.',
  },
  'COLUMN_MISSING.axes_beside': {
    message: ({ file, columns }: File & { columns: string }) =>
      `${file}: a column names the quantity of each row, but found the columns ${columns}; expected three axes x, y and z beside it. The file was refused.`,
    hint: 'Export one row an instant with all three axes, or name the columns in a layout.',
  },
  ACCELERATION_WITHOUT_GRAVITY: {
    message: ({ file, column }: File & { column: string }) =>
      `${file}: found only "${column}", acceleration from which gravity was taken off; expected what the sensor itself reads, gravity included. The file was refused.`,
    hint: 'Export the raw acceleration.',
  },
  NOT_A_RECORDING: noTable('no table of numbers', 'Check that this is the CSV export of a sensor recording.'),
  'NOT_A_RECORDING.json': noTable('JSON', 'Export the recording as CSV: a line of names, then one row an instant.'),
  'NOT_A_RECORDING.markup': noTable(
    'markup (HTML or XML)',
    'Export the recording as CSV; a web page saved under that name is none.',
  ),
  'NOT_A_RECORDING.named_values': noTable(
    'a name with every value (name=value)',
    'Export the recording as CSV: the names once in the first line, then one row an instant.',
  ),
  'NOT_A_RECORDING.brackets': noTable(
    'numbers in brackets, several a cell',
    'Export every axis in a column of its own.',
  ),
  'NOT_A_RECORDING.several_a_cell': noTable(
    'several numbers in one cell, parted by commas',
    'Export every axis in a column of its own.',
  ),
  'NOT_A_RECORDING.touching': noTable(
    'columns so narrow that numbers touch, such as 9.812-0.031',
    'Export with wider columns, or with a comma or tab between them.',
  ),
  'NOT_A_RECORDING.units': noTable(
    'numbers with their unit in every cell',
    'Export plain numbers; the unit belongs into the line of names, as in "acc_x [m/s2]".',
  ),
  'NOT_A_RECORDING.channel_beside': noTable(
    'one value a row, its channel beside it',
    'Export one row an instant with a column for every axis.',
  ),
  'NOT_A_RECORDING.on_its_side': noTable(
    'a table on its side, with a row for every quantity',
    'Turn it (transpose): one row an instant, one column for every axis.',
  ),
  'NOT_A_RECORDING.first_sheet': {
    message: ({ file, sheet, others }: File & { sheet: string; others: readonly string[] }) =>
      `${file}: found no table of numbers on the first sheet ("${sheet}"); only that one is read. The others are ${others.map((name) => `"${name}"`).join(', ')}. The file was refused.`,
    hint: 'Move the sheet of the recording to the front, or save it as CSV.',
  },
  FILE_CUT_SHORT: {
    message: ({ file }: File) => `${file}: the compressed file breaks off; what came before the break was read.`,
    hint: 'Copy the file from the sensor again.',
  },
  'ROWS_SET_ASIDE.rows': {
    message: ({ file, count, ...first }: File & Row & { count: number }, say) =>
      `${file}: ${count} ${say.plural(count, { one: 'row', other: 'rows' })} set aside (${firstRow(first, say)}).`,
    hint: 'The list of rows can be downloaded; nothing was filled in for them.',
  },
  ROWS_PASSED_OVER: {
    message: ({ file, named }: File & { named: readonly { name: string; rows: number }[] }) =>
      `${file}: rows of other quantities, people or sensors were passed over: ${named.map(({ name, rows }) => `${rows} of "${name}"`).join(', ')}.`,
    hint: 'If one of them is acceleration or angular rate, say so in a layout (acc_value, gyr_value).',
  },
  RATES_DOUBTFUL: {
    message: ({ file, acc_g, gyr_dps }: File & { acc_g: number; gyr_dps: number }, say) =>
      `${file}: the sensor was shaken by up to ${say.number(acc_g, 0)} g and turned by no more than ${say.number(gyr_dps, 0)} deg/s; a running leg turns ten times as fast. Its angular rate may be in rad/s though deg/s was taken.`,
    hint: 'Look into the export’s settings; a layout with "gyr_unit": "rad/s" reads it so.',
  },
  GYROSCOPE_DEAD: {
    message: ({ file, columns }: File & { columns: readonly string[] }) =>
      `${file}: the gyroscope (${columns.map((name) => `"${name}"`).join(', ')}) reads nothing but zeros; it was left out.`,
    hint: 'Check whether the gyroscope was switched on; without it angles and stride lengths are not measured.',
  },
  RATE_LOW: {
    message: ({ file, rate_hz, least_hz }: File & { rate_hz: number; least_hz: number }, say) =>
      `${file}: ${say.number(rate_hz, 1)} Hz is below ${least_hz} Hz, too few samples in a contact for contact times; steps can be counted.`,
    hint: 'Record at 200 Hz or more, better 500 Hz.',
  },
  RATE_DISAGREES: {
    message: ({ file, rate_hz, told_hz }: File & { rate_hz: number; told_hz: number }, say) =>
      `${file}: the file's own time gives ${say.number(rate_hz, 2)} Hz where ${say.number(told_hz)} Hz was stated; the file's time was used.`,
    hint: 'Check the stated rate.',
  },
  SAMPLES_LOST: {
    message: (
      { file, gaps, lost, from_s, to_s }: File & { gaps: number; lost: number; from_s: number; to_s: number },
      say,
    ) =>
      `${file}: ${gaps} ${say.plural(gaps, { one: 'gap', other: 'gaps' })}, ${lost} samples lost; the longest from ${say.number(from_s, 3)} to ${say.number(to_s, 3)} s. Nothing was filled in.`,
    hint: 'Contacts at a gap are left out; bring the receiver nearer or record on the sensor.',
  },
  CLOCK_RESTARTED: {
    message: ({ file, times }: File & { times: number }) =>
      `${file}: the clock started again ${times === 1 ? 'once' : `${times} times`}; how long the sensor was away is not known, so times after it are not tied to those before.`,
    hint: 'Check the battery, or cut the recording into two.',
  },
  ROWS_OUT_OF_ORDER: {
    message: ({ file, rows }: File & { rows: number }) =>
      `${file}: ${rows} rows came late and were put in order by their time.`,
    hint: '',
  },
  ROWS_REPEATED: {
    message: ({ file, rows }: File & { rows: number }) =>
      `${file}: ${rows} rows came twice, alike in every value; one of each was kept.`,
    hint: '',
  },
  SAMPLES_FILLED: {
    message: ({ file, rows }: File & { rows: number }) =>
      `${file}: ${rows} rows hold one number in every channel (zeros, -999), or the row before again and again while the sensor moves: they were lost on the way and filled in. They were left out.`,
    hint: 'Contacts there are left out; bring the receiver nearer or record on the sensor.',
  },
  SENSOR_SLOWER: {
    message: ({ file, percent }: File & { percent: number }, say) =>
      `${file}: ${say.number(percent, 0)} % of the rows repeat the row before: the sensor measured fewer times a second than the file has rows.`,
    hint: 'Export at the rate at which the sensor measures: times are no finer than that.',
  },
  AXIS_STUCK: {
    message: ({ file, axes }: File & { axes: readonly string[] }) =>
      `${file}: the ${axes.join(', ')} gives the same value in every row; the sensor or its export is broken there.`,
    hint: 'What rests on that axis is not to be trusted; check the sensor and export again.',
  },
} as const satisfies FaultRoom;

function notText(hint: string) {
  return {
    message: ({ file, format }: File & { format: string }) =>
      `${file}: found ${FORMATS[format] ?? format}; expected a text file of comma-separated values. The file was refused.`,
    hint,
  };
}

function tooMany<V extends object>(hint: (values: V) => string) {
  return {
    message: (
      { file, count, of, most_percent, ...first }: File & Row & { count: number; of: number; most_percent: number },
      say: Speech,
    ) =>
      `${file}: ${count} of ${of} rows cannot be read (${firstRow(first, say)}); at most ${most_percent} % may be set aside. The file was refused.`,
    hint,
  };
}

function noTable(found: string, hint: string) {
  return {
    message: ({ file, begins }: File & { begins: string }) =>
      `${file}: found ${found} (it begins with "${begins}"); expected a table: rows with time and at least three columns of acceleration. The file was refused.`,
    hint,
  };
}
