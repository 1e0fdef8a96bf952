import type { Reason } from '../../../reason-shape.ts';
import type { Speech } from '../../say.ts';
import type { fileFaults } from '../../en/faults/files.ts';
import type { FaultsLike } from '../../sentence.ts';

type File = { file: string };
type Row = { line: number; column: string | null; found: Reason; expected: Reason };
const firstRow = ({ line, column, found, expected }: Row, say: Speech): string =>
  `zuerst: Zeile ${line}${column ? `, Spalte „${column}“` : ''}: gefunden ${say.because(found)}, erwartet ${say.because(expected)}`;

/** Formats that people mistake for a table. */
const FORMATS: Record<string, string> = {
  bzip2: 'ein bzip2-Archiv',
  xz: 'ein xz-Archiv',
  zstandard: 'ein Zstandard-Archiv',
  '7-zip': 'ein 7-Zip-Archiv',
  rar: 'ein RAR-Archiv',
  tar: 'ein tar-Archiv',
  pdf: 'ein PDF-Dokument',
  sqlite: 'eine SQLite-Datenbank',
  parquet: 'eine Parquet-Datei',
  arrow: 'eine Arrow- oder Feather-Datei',
  hdf5: 'eine HDF5-Datei (auch MATLAB 7.3 schreibt sie)',
  matlab: 'eine MATLAB-Datei',
  xls: 'eine alte Excel-Arbeitsmappe (.xls) oder eine mit Kennwort',
  xlsb: 'eine binäre Arbeitsmappe (.xlsb)',
  ods: 'eine OpenDocument-Arbeitsmappe (.ods)',
  docx: 'ein Textdokument (.docx)',
  c3d: 'eine C3D-Datei der Bewegungserfassung',
  png: 'ein PNG-Bild',
  jpeg: 'ein JPEG-Bild',
  film: 'einen Film',
  zip: 'ein ZIP-Archiv',
  lzma: 'ein LZMA-Archiv',
  compress: 'eine mit compress gepackte Datei (.Z)',
  lz4: 'ein LZ4-Archiv',
  snappy: 'ein Snappy-Archiv',
  rtf: 'ein gestaltetes Dokument (.rtf)',
  duckdb: 'eine DuckDB-Datenbank',
  avro: 'eine Avro-Datei',
  npy: 'ein NumPy-Feld (.npy)',
  npz: 'NumPy-Felder (.npz)',
  pickle: 'eine Python-Pickle-Datei',
  r: 'eine R-Datendatei (.rds, .RData)',
  spss: 'eine SPSS-Datendatei (.sav)',
  stata: 'eine Stata-Datendatei (.dta)',
  sas: 'eine SAS-Datendatei',
  tdms: 'eine TDMS-Messdatei',
  mdf: 'eine MDF-Messdatei',
  xdf: 'eine XDF-Datei mit Datenströmen',
  edf: 'eine BDF-Aufzeichnung von Biosignalen',
  rosbag: 'ein ROS-Bag',
  mcap: 'ein MCAP-Protokoll',
  'utf-32': 'Text in UTF-32',
  gif: 'ein GIF-Bild',
  webp: 'ein WebP-Bild',
  heic: 'ein HEIC-Bild',
  wave: 'eine Tondatei (.wav)',
};

export const fileFaults_de: FaultsLike<typeof fileFaults> = {
  FILE_EMPTY: {
    message: ({ file }) =>
      `${file}: Die Datei ist leer; erwartet Zeilen einer Aufzeichnung. Die Datei wurde abgewiesen.`,
    hint: 'Die Aufzeichnung noch einmal vom Sensor kopieren.',
  },
  NO_SAMPLES: {
    message: ({ file, rows, rejected }) =>
      `${file}: ${rows} brauchbare Zeilen gefunden (${rejected} beiseitegelegt); mindestens zwei sind nötig. Die Datei wurde abgewiesen.`,
    hint: 'Prüfen, ob unter der Kopfzeile Daten stehen.',
  },
  'FILE_NOT_TEXT.unpack': notText('Sie zuerst entpacken, oder mit gzip packen, das so gelesen wird.'),
  'FILE_NOT_TEXT.export': notText('Die Aufzeichnung von dort als CSV exportieren.'),
  'FILE_NOT_TEXT.printed': notText(
    'Eine gedruckte Tabelle lässt sich nicht lesen: die Aufzeichnung selbst als CSV exportieren.',
  ),
  'FILE_NOT_TEXT.write_table': notText('Sie von dort mit writetable oder writematrix als CSV speichern.'),
  'FILE_NOT_TEXT.write_csv': notText(
    'Sie von dort als CSV speichern; in Python zum Beispiel als Datentabelle lesen und mit to_csv(index=False) schreiben.',
  ),
  'FILE_NOT_TEXT.write_csv_r': notText('Sie aus R mit write.csv(data, "recording.csv", row.names = FALSE) speichern.'),
  'FILE_NOT_TEXT.save_text': notText(
    'Sie aus Python mit numpy.savetxt("recording.csv", array, delimiter=",", header="namen,der,spalten", comments="") speichern.',
  ),
  'FILE_NOT_TEXT.save_utf8': notText('Ihn als UTF-8 speichern.'),
  'FILE_NOT_TEXT.save_sheet': notText('Ihr Blatt als CSV oder als .xlsx speichern.'),
  'FILE_NOT_TEXT.picture': notText(
    'Das Bild einer Tabelle lässt sich nicht lesen: die Aufzeichnung selbst als CSV exportieren.',
  ),
  'FILE_NOT_TEXT.film': notText('Filme gehören auf die Filmseite, nicht hierher.'),
  'FILE_NOT_TEXT.archive': notText('Sie zuerst entpacken, oder mit gzip packen, das so gelesen wird.'),
  'FILE_NOT_TEXT.binary': {
    message: ({ file, bytes, of }) =>
      `${file}: ${bytes} Byte gefunden, die kein Text hat, unter den ersten ${of}; erwartet eine Textdatei mit durch Komma getrennten Werten. Die Datei wurde abgewiesen.`,
    hint: 'Die Aufzeichnung als CSV exportieren.',
  },
  WORKBOOK_UNREADABLE: {
    message: ({ file, why }) =>
      `${file}: sieht wie eine Arbeitsmappe (.xlsx) aus, lässt sich aber nicht öffnen (${why}); nichts wurde gelesen.`,
    hint: 'Die Datei noch einmal kopieren; hilft das nicht, sie in einer Tabellenkalkulation öffnen und ihr Blatt als CSV speichern.',
  },
  WORKBOOK_TOO_LARGE: {
    message: ({ file }) => `${file}: eine Arbeitsmappe, die nicht in den Speicher passt. Die Datei wurde abgewiesen.`,
    hint: 'Ihr Blatt als CSV speichern; das wird in jeder Größe gelesen.',
  },
  SHEETS_NOT_READ: {
    message: ({ file, sheet, others }) =>
      `${file}: Gelesen wurde das erste Blatt („${sheet}“), die anderen nicht: ${others.map((name) => `„${name}“`).join(', ')}.`,
    hint: 'Liegt ein Sensor oder seine Drehrate auf einem anderen Blatt, alle Spalten auf ein Blatt bringen oder die Blätter als CSV speichern.',
  },
  LINE_TOO_LONG: {
    message: ({ file, bytes }) =>
      `${file}: Innerhalb von ${bytes} Byte endet keine Zeile; erwartet eine Zeile je Messung. Die Datei wurde abgewiesen.`,
    hint: 'Prüfen, ob dies der CSV-Export der Aufzeichnung ist: JSON in einer Zeile und liegende Tabellen (eine Zeile je Größe) werden nicht gelesen.',
  },
  IMPORT_CANCELLED: {
    message: ({ file }) => `${file}: Das Einlesen wurde abgebrochen; nichts wurde behalten.`,
    hint: '',
  },
  GZIP_UNREADABLE: {
    message: ({ file, why }) =>
      `${file}: beginnt wie eine gzip-Datei, lässt sich aber nicht entpacken (${why}); nichts wurde gelesen.`,
    hint: 'Die Datei noch einmal vom Sensor kopieren, oder sie vorher entpacken.',
  },
  'RATE_MISSING.no_time': {
    message: ({ file }) =>
      `${file}: Das Layout liest Zeilen ohne Zeit, und keine Abtastrate wurde angegeben. Die Datei wurde abgewiesen.`,
    hint: 'Die Abtastrate angeben, zum Beispiel --rate 500hz.',
  },
  'RATE_MISSING.stands_still': {
    message: ({ file }) =>
      `${file}: Zeitstempel gefunden, die in fast allen Zeilen gleich sind; erwartet eine Zeit, die mit den Zeilen weiterläuft. Die Datei wurde abgewiesen.`,
    hint: 'Die Zeit mit Bruchteilen einer Sekunde exportieren, oder sie weglassen und die Abtastrate angeben, zum Beispiel --rate 500hz.',
  },
  'RATE_MISSING.backward': {
    message: ({ file, column, from }) =>
      `${file}: eine rückwärts laufende Zeit gefunden („${column}“, ab ${from} abwärts); erwartet die früheste Zeile zuerst. Die Datei wurde abgewiesen.`,
    hint: 'Die Zeilen nach der Zeit ordnen, die früheste zuerst.',
  },
  'RATE_MISSING.no_use': {
    message: ({ file, column, first, last }) =>
      `${file}: „${column}“ gefunden, von „${first}“ bis „${last}“ in den betrachteten Zeilen, woraus kein Zeitpunkt jeder Zeile folgt, und keine Abtastrate; eines von beiden ist nötig. Die Datei wurde abgewiesen.`,
    hint: 'Die Abtastrate angeben, zum Beispiel --rate 500hz, oder die Zeit vollständig exportieren: Sekunden mit ihren Dezimalen.',
  },
  'RATE_MISSING.no_column': {
    message: ({ file, columns }) =>
      `${file}: keine Spalte mit Zeit gefunden (${columns}) und keine Abtastrate; eines von beiden ist nötig. Die Datei wurde abgewiesen.`,
    hint: 'Die Abtastrate angeben, zum Beispiel --rate 500hz.',
  },
  'ROWS_BY_QUANTITY.apart': {
    message: ({ file }) =>
      `${file}: Beschleunigung und Drehrate stehen in eigenen Zeilen, Millionen Zeilen auseinander; erwartet, dass sie sich abwechseln. Die Datei wurde abgewiesen.`,
    hint: 'Die Zeilen nach der Zeit ordnen, oder beide Größen nebeneinander exportieren.',
  },
  'ROWS_BY_QUANTITY.no_time': {
    message: ({ file }) =>
      `${file}: Beschleunigung und Drehrate stehen in eigenen Zeilen, und keine Spalte mit Zeit führt sie zusammen. Die Datei wurde abgewiesen.`,
    hint: 'Die Zeit mit jeder Zeile exportieren, oder beide Größen nebeneinander.',
  },
  TOO_MANY_BAD_ROWS: tooMany(
    (_: object) =>
      'Die genannten Zeilen ansehen; steht ein Wort für einen fehlenden Wert, es in einem Layout unter missing_values ergänzen.',
  ),
  'TOO_MANY_BAD_ROWS.another_table': tooMany(
    ({ line, text }: { line: number; text: string }) =>
      `Ab Zeile ${line} scheint eine andere Tabelle zu beginnen („${text}“): jede Tabelle als eigene Datei geben.`,
  ),
  LAYOUT_AMBIGUOUS: {
    message: ({ file, found, choices }, say) =>
      `${file}: gefunden: ${say.because(found)}.${choices.length > 0 ? ` Möglich: ${choices.map((choice) => say.because(choice)).join(', oder ')}.` : ''} Nichts wurde gelesen, weil die Datei nicht sagt, was stimmt.`,
    hint: ({ hint }, say) => say.because(hint),
  },
  LAYOUT_UNREADABLE: {
    message: ({ file, why }) => `${file}: Das ist kein Layout (${why}). Es wurde nicht verwendet.`,
    hint: 'Ein Layout exportieren und ändern, oder eine Berichtigung wie {"acc_unit":"g"} geben.',
  },
  LAYOUT_DOES_NOT_FIT: {
    message: ({ file, column, names, count }) =>
      `${file}: Das Layout spricht von Spalte ${JSON.stringify(column)}; die Datei hat ${names.length > 0 ? names.join(', ') : `${count} Spalten ohne Namen`}. Die Datei wurde abgewiesen.`,
    hint: 'Die Spalte im Layout berichtigen, oder die Datei ohne es lesen.',
  },
  SEVERAL_SAMPLES_A_ROW: {
    message: ({ file, samples, column }) =>
      `${file}: ${samples} Messungen der Beschleunigung nebeneinander in einer Zeile gefunden („${column}“, ...); erwartet eine Messung je Zeile. Die Datei wurde abgewiesen.`,
    hint: 'Eine Zeile je Messung exportieren.',
  },
  'COLUMN_MISSING.axis': {
    message: ({ file, partial, lacking }) =>
      `${file}: Beschleunigung in ${partial} gefunden, aber keine Achse ${lacking}; x, y und z sind alle nötig. Die Datei wurde abgewiesen.`,
    hint: 'Die Aufzeichnung mit allen drei Achsen der Beschleunigung exportieren, oder die Spalten in einem Layout nennen.',
  },
  'COLUMN_MISSING.acceleration': {
    message: ({ file, columns, more }) =>
      `${file}: die Spalten ${columns}${more ? ', ...' : ''} gefunden; erwartet Beschleunigung in x, y und z. Die Datei wurde abgewiesen.`,
    hint: 'Die Aufzeichnung mit allen drei Achsen der Beschleunigung exportieren, oder die Spalten in einem Layout nennen.',
  },
  'COLUMN_MISSING.axes_beside': {
    message: ({ file, columns }) =>
      `${file}: Eine Spalte nennt die Größe jeder Zeile, gefunden wurden aber die Spalten ${columns}; erwartet drei Achsen x, y und z daneben. Die Datei wurde abgewiesen.`,
    hint: 'Eine Zeile je Zeitpunkt mit allen drei Achsen exportieren, oder die Spalten in einem Layout nennen.',
  },
  ACCELERATION_WITHOUT_GRAVITY: {
    message: ({ file, column }) =>
      `${file}: nur „${column}“ gefunden, Beschleunigung ohne Schwerkraft; erwartet, was der Sensor selbst misst, Schwerkraft eingeschlossen. Die Datei wurde abgewiesen.`,
    hint: 'Die rohe Beschleunigung exportieren.',
  },
  NOT_A_RECORDING: noTable('keine Tabelle mit Zahlen', 'Prüfen, ob dies der CSV-Export einer Sensoraufzeichnung ist.'),
  'NOT_A_RECORDING.json': noTable(
    'JSON',
    'Die Aufzeichnung als CSV exportieren: eine Zeile mit Namen, dann eine Zeile je Zeitpunkt.',
  ),
  'NOT_A_RECORDING.markup': noTable(
    'Auszeichnung (HTML oder XML)',
    'Die Aufzeichnung als CSV exportieren; eine unter diesem Namen gespeicherte Webseite ist keine.',
  ),
  'NOT_A_RECORDING.named_values': noTable(
    'einen Namen bei jedem Wert (name=wert)',
    'Die Aufzeichnung als CSV exportieren: die Namen einmal in der ersten Zeile, dann eine Zeile je Zeitpunkt.',
  ),
  'NOT_A_RECORDING.brackets': noTable(
    'Zahlen in Klammern, mehrere in einer Zelle',
    'Jede Achse in einer eigenen Spalte exportieren.',
  ),
  'NOT_A_RECORDING.several_a_cell': noTable(
    'mehrere Zahlen in einer Zelle, durch Komma getrennt',
    'Jede Achse in einer eigenen Spalte exportieren.',
  ),
  'NOT_A_RECORDING.touching': noTable(
    'so schmale Spalten, dass Zahlen sich berühren, wie 9.812-0.031',
    'Mit breiteren Spalten exportieren, oder mit Komma oder Tabulator dazwischen.',
  ),
  'NOT_A_RECORDING.units': noTable(
    'Zahlen mit ihrer Einheit in jeder Zelle',
    'Bloße Zahlen exportieren; die Einheit gehört in die Zeile der Namen, wie in „acc_x [m/s2]“.',
  ),
  'NOT_A_RECORDING.channel_beside': noTable(
    'einen Wert je Zeile, der Kanal daneben',
    'Eine Zeile je Zeitpunkt mit einer Spalte für jede Achse exportieren.',
  ),
  'NOT_A_RECORDING.on_its_side': noTable(
    'eine liegende Tabelle, mit einer Zeile je Größe',
    'Sie drehen (transponieren): eine Zeile je Zeitpunkt, eine Spalte für jede Achse.',
  ),
  'NOT_A_RECORDING.first_sheet': {
    message: ({ file, sheet, others }) =>
      `${file}: Auf dem ersten Blatt („${sheet}“) steht keine Zahlentabelle; nur dieses wird gelesen. Die anderen sind ${others.map((name) => `„${name}“`).join(', ')}. Die Datei wurde abgewiesen.`,
    hint: 'Das Blatt der Aufzeichnung nach vorn stellen oder als CSV speichern.',
  },
  FILE_CUT_SHORT: {
    message: ({ file }) => `${file}: Die gepackte Datei bricht ab; was davor kam, wurde gelesen.`,
    hint: 'Die Datei noch einmal vom Sensor kopieren.',
  },
  'ROWS_SET_ASIDE.rows': {
    message: ({ file, count, ...first }, say) =>
      `${file}: ${count} ${say.plural(count, { one: 'Zeile', other: 'Zeilen' })} beiseitegelegt (${firstRow(first, say)}).`,
    hint: 'Die Liste der Zeilen lässt sich herunterladen; nichts wurde für sie ergänzt.',
  },
  ROWS_PASSED_OVER: {
    message: ({ file, named }) =>
      `${file}: Zeilen anderer Größen, Personen oder Sensoren wurden übergangen: ${named.map(({ name, rows }) => `${rows} mit „${name}“`).join(', ')}.`,
    hint: 'Ist eine davon Beschleunigung oder Drehrate, es in einem Layout sagen (acc_value, gyr_value).',
  },
  RATES_DOUBTFUL: {
    message: ({ file, acc_g, gyr_dps }, say) =>
      `${file}: Der Sensor wurde mit bis zu ${say.number(acc_g, 0)} g geschüttelt und drehte sich mit höchstens ${say.number(gyr_dps, 0)} Grad/s; ein laufendes Bein dreht sich zehnmal so schnell. Die Drehrate steht vielleicht in rad/s, obwohl Grad/s angenommen wurden.`,
    hint: 'In die Einstellungen des Exports sehen; ein Layout mit "gyr_unit": "rad/s" liest sie so.',
  },
  GYROSCOPE_DEAD: {
    message: ({ file, columns }) =>
      `${file}: Das Gyroskop (${columns.map((name) => `„${name}“`).join(', ')}) misst nichts als Nullen; es wurde weggelassen.`,
    hint: 'Prüfen, ob das Gyroskop eingeschaltet war; ohne es werden Winkel und Schrittlängen nicht gemessen.',
  },
  RATE_LOW: {
    message: ({ file, rate_hz, least_hz }, say) =>
      `${file}: ${say.number(rate_hz, 1)} Hz liegt unter ${least_hz} Hz, zu wenige Messungen je Kontakt für Kontaktzeiten; Schritte lassen sich zählen.`,
    hint: 'Mit 200 Hz oder mehr aufzeichnen, besser 500 Hz.',
  },
  RATE_DISAGREES: {
    message: ({ file, rate_hz, told_hz }, say) =>
      `${file}: Die Zeit der Datei ergibt ${say.number(rate_hz, 2)} Hz, angegeben waren ${say.number(told_hz)} Hz; die Zeit der Datei gilt.`,
    hint: 'Die angegebene Rate prüfen.',
  },
  SAMPLES_LOST: {
    message: ({ file, gaps, lost, from_s, to_s }, say) =>
      `${file}: ${gaps} ${say.plural(gaps, { one: 'Lücke', other: 'Lücken' })}, ${lost} Messungen verloren; die längste von ${say.number(from_s, 3)} bis ${say.number(to_s, 3)} s. Nichts wurde ergänzt.`,
    hint: 'Kontakte an einer Lücke werden weggelassen; den Empfänger näher bringen oder auf dem Sensor aufzeichnen.',
  },
  CLOCK_RESTARTED: {
    message: ({ file, times }) =>
      `${file}: Die Uhr begann ${times === 1 ? 'einmal' : `${times}-mal`} von vorn; wie lange der Sensor weg war, ist nicht bekannt, darum hängen die Zeiten danach nicht mit denen davor zusammen.`,
    hint: 'Die Batterie prüfen, oder die Aufzeichnung in zwei teilen.',
  },
  ROWS_OUT_OF_ORDER: {
    message: ({ file, rows }) => `${file}: ${rows} Zeilen kamen spät und wurden nach ihrer Zeit eingeordnet.`,
    hint: '',
  },
  ROWS_REPEATED: {
    message: ({ file, rows }) =>
      `${file}: ${rows} Zeilen kamen zweimal, in allen Werten gleich; je eine wurde behalten.`,
    hint: '',
  },
  SAMPLES_FILLED: {
    message: ({ file, rows }) =>
      `${file}: ${rows} Zeilen enthalten in allen Kanälen eine Zahl (Nullen, -999), oder immer wieder die Zeile davor, während der Sensor sich bewegt: Sie gingen unterwegs verloren und wurden aufgefüllt. Sie wurden weggelassen.`,
    hint: 'Kontakte dort werden weggelassen; den Empfänger näher bringen oder auf dem Sensor aufzeichnen.',
  },
  SENSOR_SLOWER: {
    message: ({ file, percent }, say) =>
      `${file}: ${say.number(percent, 0)} % der Zeilen wiederholen die Zeile davor: Der Sensor maß seltener in der Sekunde, als die Datei Zeilen hat.`,
    hint: 'Mit der Rate exportieren, mit der der Sensor misst: Zeiten sind nicht feiner als das.',
  },
  AXIS_STUCK: {
    message: ({ file, axes }) =>
      `${file}: ${axes.join(', ')} zeigt in jeder Zeile denselben Wert; der Sensor oder sein Export ist dort defekt.`,
    hint: 'Was auf dieser Achse beruht, ist nicht verlässlich; den Sensor prüfen und neu exportieren.',
  },
};

function notText(hint: string) {
  return {
    message: ({ file, format }: File & { format: string }) =>
      `${file}: gefunden ${FORMATS[format] ?? format}; erwartet eine Textdatei mit durch Komma getrennten Werten. Die Datei wurde abgewiesen.`,
    hint,
  };
}

function tooMany<V extends object>(hint: (values: V) => string) {
  return {
    message: (
      { file, count, of, most_percent, ...first }: File & Row & { count: number; of: number; most_percent: number },
      say: Speech,
    ) =>
      `${file}: ${count} von ${of} Zeilen lassen sich nicht lesen (${firstRow(first, say)}); höchstens ${most_percent} % dürfen beiseitegelegt werden. Die Datei wurde abgewiesen.`,
    hint,
  };
}

function noTable(found: string, hint: string) {
  return {
    message: ({ file, begins }: File & { begins: string }) =>
      `${file}: gefunden ${found} (sie beginnt mit „${begins}“); erwartet eine Tabelle: Zeilen mit Zeit und mindestens drei Spalten Beschleunigung. Die Datei wurde abgewiesen.`,
    hint,
  };
}
