import type { layoutReasons } from '../en/layout-reasons.ts';
import type { PhrasesLike } from '../sentence.ts';
import { named, quoted, unitWords } from './column-names.ts';

const ANGLES: { readonly [unit: string]: string } = { degrees: 'Grad', radians: 'Radiant' };

export const layoutReasons_de: PhrasesLike<typeof layoutReasons> = {
  found_rates_misfit_turned: ({ written, better }) =>
    `Drehrate als ${written} geschrieben, womit sich der Sensor nicht so gedreht hätte, wie seine Beschleunigung zeigt; in ${better} schon`,
  found_rates_misfit_shaken: ({ written, better }) =>
    `Drehrate als ${written} geschrieben, womit sich der Sensor kaum gedreht hätte, obwohl er hart geschüttelt wurde; in ${better} schon`,
  found_misfit_names: ({ names, line, columns }) =>
    `${names} Namen in Zeile ${line} für ${columns} Spalten, und Zeilen, die es von selbst nicht sagen`,
  found_mixed_units: ({ names }) => `die Achsen ${quoted(names)} in verschiedenen Einheiten`,
  found_nameless: ({ columns, gravity }) =>
    `${columns} Spalten ohne Namen, von denen ${gravity.length === 0 ? 'keine drei nebeneinander in Ruhe einen Betrag von 1 g haben' : `${gravity.map(({ from, to }) => `die Spalten ${from} bis ${to}`).join(' und ')} alle in Ruhe einen Betrag von 1 g haben`}`,
  found_nameless_left: ({ columns }) =>
    `Spalten ohne Namen, von denen ${columns.join(', ')} um null schwanken, aber keine drei nebeneinander sind; sie können die Drehrate sein`,
  found_acceleration_without_unit: ({ facts }, say) => `Beschleunigung ohne Einheit, ${say.because(facts)}`,
  found_acceleration_misfit: ({ written, facts, g }, say) =>
    `Beschleunigung als ${written} geschrieben, ${say.because(facts)}; das wären ${say.number(g)} g in Ruhe`,
  found_counts_misfit: ({ per_g, facts, g }, say) =>
    `Beschleunigung in Zählwerten, ${per_g} je g wie angegeben, ${say.because(facts)}; das wären ${say.number(g)} g in Ruhe`,
  norm_at_rest: ({ norm }, say) => `Betrag in Ruhe ${say.number(norm)}`,
  mean_turned: ({ norm }, say) => `Mittel ohne die Drehung ${say.number(norm)} (keine Ruhe in den angesehenen Zeilen)`,
  median_norm: ({ norm }, say) => `mittlerer Betrag ${say.number(norm)} (keine Ruhe in den angesehenen Zeilen)`,
  found_rate_without_unit: ({ facts }, say) => `Drehrate ohne Einheit, ${say.because(facts)}`,
  peak_beside_shake: ({ peak, g }, say) =>
    `Spitze ${say.number(peak)}, während die Beschleunigung ${say.number(g, 1)} g erreicht`,
  found_radians_too_many: ({ peak }, say) =>
    `Drehrate als rad/s geschrieben, die ${say.number(peak)} erreicht, mehr als jeder Sensor misst`,
  found_sensors_without_side: ({ n, name, values }) =>
    `Zeilen von ${n} Sensoren, unterschieden durch „${name}“ (${values.join(', ')}); welche zwei links und rechts sind, steht nicht da`,
  found_codes: ({ name, codes, rates }) =>
    `Zeilen, unterschieden durch „${name}“ (${codes.join(', ')}), von denen ${rates.join(' und ')} die Drehrate sein können`,
  found_angles_named: ({ names }, say) =>
    `Drehraten namens ${say.list(names.map((name) => `„${name}“`))}, die Hersteller verschiedenen Achsen geben`,
  found_unknown_accelerations: ({ triples }) =>
    `Spalten mit unbekannten Namen, von denen keine drei allein in Ruhe einen Betrag von 1 g haben: ${triples.map(named).join('; ')}`,
  found_several_rates: ({ acc, rates }) =>
    `Beschleunigung (${named(acc)}) und ${rates.length} Sätze von Drehraten: ${rates.map(named).join('; ')}`,
  found_several_sensors: ({ names }) =>
    `${names.length} Sensoren oder Fassungen der Beschleunigung in einer Datei (${quoted(names)})`,
  found_unknown_rates: ({ acc, rates }) =>
    `Beschleunigung (${named(acc)}) und ${rates.map(named).join('; ')} mit unbekannten Namen; sie können die Drehrate sein`,
  found_rates_in_other_unit: ({ acc, rates }) =>
    `Beschleunigung (${named(acc)}) und ${named(rates)}, als Drehrate benannt, in einer Einheit von etwas anderem`,
  found_several_people: ({ name, values }) =>
    `Zeilen mehrerer Personen oder Aufzeichnungen, unterschieden durch „${name}“ (${values.slice(0, 12).join(', ')}${values.length > 12 ? ', ...' : ''})`,
  found_double_comma: ({ row }) =>
    `Zeilen wie „${row}“, in denen das Komma Spalten und Dezimalstellen zugleich trennen kann`,
  found_two_clocks: ({ left, right }) =>
    `eine Uhr für jeden Fuß („${left}“, „${right}“), deren Zeitstempel sich von Zeile zu Zeile unterscheiden`,
  found_interval: ({ name, mean }, say) => `„${name}“, die Zeit seit der Zeile davor, im Mittel ${say.number(mean)}`,
  found_interval_in_turn: ({ name, sensors }) =>
    `„${name}“ neben abwechselnden Zeilen von ${sensors} Sensoren: die Zeit seit der Zeile davor, oder seit der vorigen Zeile desselben Sensors`,
  found_time_misfit: ({ column, unit, step, hz, motion }, say) =>
    `${named([column])} in ${unitWords(unit)} geschrieben, worin der Schritt von ${say.number(step)} ${say.number(hz)} Hz wäre${motion ? '; damit hätte sich der Sensor nicht wie ein Bein bewegt' : ''}`,
  found_time_without_unit: ({ column, step }, say) =>
    `${named([column])} mit einem Schritt von ${say.number(step)} je Zeile und ohne Einheit`,
  choice_unit: ({ unit }) => unit,
  choice_as_written: ({ unit }) => `${unit} wie geschrieben`,
  choice_rate: ({ unit, hz }, say) => `${unitWords(unit)} (${say.number(hz)} Hz)`,
  choice_counts_g: ({ counts }) => `Zählwerte, ${counts} je g`,
  choice_counts_g_of_range: ({ counts, range }) => `Zählwerte, ${counts} je g (16 Bit bei +-${range} g)`,
  choice_counts_dps: ({ counts, range }) => `Zählwerte, ${counts} je deg/s (16 Bit bei +-${range} deg/s)`,
  choice_angles: ({ axes }) => `alpha um ${axes[0]}, beta um ${axes[1]}, gamma um ${axes[2]}`,
  choice_acceleration: ({ columns }) => `${named(columns)} die Beschleunigung`,
  choice_rates: ({ columns }) => `${named(columns)} die Drehrate`,
  choice_no_rates: 'keine Drehrate in dieser Datei',
  choice_feet: ({ left, right }, say) => `${say.because(left)} links und ${say.because(right)} rechts`,
  choice_rows_of: ({ value }) => `die Zeilen von „${value}“`,
  choice_alone: ({ sensor }, say) => `nur ${say.because(sensor)}`,
  sensor_named: ({ name }) => `„${name}“`,
  sensor_plain: ({ name }) => name,
  sensor_columns: ({ columns }) => `Spalten ${columns.join(', ')}`,
  choice_each_at: ({ hz }, say) => `jeder Sensor mit ${say.number(hz)} Hz`,
  choice_row_number: ({ hz, motion }) =>
    `die Nummer der Zeile, bei ${hz} Hz (${motion ? 'wie die Bewegung es zulässt' : 'hier 500 Hz, die eigene Rate angeben'})`,
  choice_ticks: ({ hz, motion }) =>
    `Takte, bei ${hz} Hz (${motion ? 'wie die Bewegung es zulässt' : 'hier 500 Hz, die eigene Rate angeben'})`,
  choices: ({ choices }, say) =>
    choices.map(({ label, correction }) => `${say.because(label)}: ${correction}`).join(' | '),
  do_layout: ({ example }) =>
    `In einem Layout sagen, was stimmt, zum Beispiel ${example}, und die Datei damit noch einmal lesen.`,
  do_correct_names:
    'Diese Zeile berichtigen: ein Name je Spalte, in Anführungszeichen, wo ein Name das Trennzeichen enthält.',
  do_correct_header: 'Die Kopfzeile berichtigen, oder ein Layout mit der Einheit geben.',
  do_add_names:
    'Der Datei eine Zeile mit Spaltennamen geben, oder ein Layout, das sagt, welche Spalten Beschleunigung und Drehrate sind.',
  do_name_sides: ({ a, b, name }) =>
    `In einem Layout sagen, was stimmt, zum Beispiel {"side_values":{"${a}":"left","${b}":"right"}}, links und rechts in die Spalte „${name}“ schreiben, oder jedem Sensor eine eigene Datei geben.`,
  do_rows_of: ({ example }) =>
    `In einer Layoutdatei sagen, wessen Zeilen gelesen werden, zum Beispiel ${example}, oder eine Datei je Person geben.`,
  do_export_signed:
    'Ganze Zahlen mit Vorzeichen und um null exportieren (Zählwerte über 32767 sind negative), oder die Zählwerte je g in einem Layout angeben, zum Beispiel {"acc_counts_per_g":2048}.',
  do_write_quantity: 'Die Größe in diese Spalte schreiben, oder die anderen Zeilen weglassen.',
  do_sensor_sides:
    'In einem Layout (--layout) sagen, was stimmt, etwa {"sensor_sides":["left","right"]} in der Reihenfolge der Spalten.',
  do_export_again:
    'Die Datei noch einmal exportieren, mit Semikolon oder Tabulator zwischen den Spalten, oder mit Dezimalpunkten.',
  do_one_file_a_sensor: 'Jedem Sensor eine eigene Datei geben: sie werden danach auf eine Uhr gebracht.',
  do_rate: ({ hz, example }) =>
    `Die Abtastrate angeben, zum Beispiel --rate ${hz}hz, oder die Einheit in einem Layout wie ${example}.`,
  found_angles: ({ names, unit }) =>
    `${quoted(names)}, als Drehrate benannt; die Beschleunigung zeigt, dass es Winkel in ${ANGLES[unit] ?? unit} sind`,
  choice_rates_as_named: 'Drehrate, wie benannt',
  do_export_rates:
    'Die Drehrate (Gyroskop) selbst exportieren; ohne sie werden die Bodenkontakte aus der Beschleunigung allein gefunden.',
};
