import type { CodedReason } from '../../reason-shape.ts';
import type { PhraseRoom } from '../sentence.ts';
import { type Column, named, quoted } from './column-names.ts';

const spans = (triples: readonly Span[]): string[] => triples.map(({ from, to }) => `columns ${from} to ${to}`);

type Span = { from: number; to: number };
type Named = { name: string };

/** What was found where a file can be read in more than one way, the ways, and what to do: parts of one question. */
export const layoutReasons = {
  // What was found
  found_rates_misfit_turned: ({ written, better }: { written: string; better: string }) =>
    `angular rate written as ${written}, by which the sensor would not have turned as its acceleration shows; in ${better} it did`,
  found_rates_misfit_shaken: ({ written, better }: { written: string; better: string }) =>
    `angular rate written as ${written}, by which the sensor hardly turned although it was shaken hard; in ${better} it did`,
  found_misfit_names: ({ names, line, columns }: { names: number; line: number; columns: number }) =>
    `${names} names in line ${line} for ${columns} columns, and rows that do not tell by themselves`,
  found_mixed_units: ({ names }: { names: readonly string[] }) => `the axes ${quoted(names)} in different units`,
  found_nameless: ({ columns, gravity }: { columns: number; gravity: readonly Span[] }) =>
    `${columns} columns without names, of which ${gravity.length === 0 ? 'no three in a row have a norm of 1 g at rest' : `${spans(gravity).join(' and ')} all have a norm of 1 g at rest`}`,
  found_nameless_left: ({ columns }: { columns: readonly number[] }) =>
    `columns without names, of which ${columns.join(', ')} go up and down about zero but are no three in a row; they may be the angular rate`,
  found_acceleration_without_unit: ({ facts }: { facts: CodedReason }, say) =>
    `acceleration without a unit, ${say.because(facts)}`,
  found_acceleration_misfit: ({ written, facts, g }: { written: string; facts: CodedReason; g: number }, say) =>
    `acceleration written as ${written} whose ${say.because(facts)}, which would be ${say.number(g)} g at rest`,
  found_counts_misfit: ({ per_g, facts, g }: { per_g: number; facts: CodedReason; g: number }, say) =>
    `acceleration in counts, ${per_g} a g as written, whose ${say.because(facts)}, which would be ${say.number(g)} g at rest`,
  norm_at_rest: ({ norm }: { norm: number }, say) => `norm at rest is ${say.number(norm)}`,
  mean_turned: ({ norm }: { norm: number }, say) =>
    `mean with the turning taken out is ${say.number(norm)} (no rest in the rows looked at)`,
  median_norm: ({ norm }: { norm: number }, say) =>
    `median norm is ${say.number(norm)} (no rest in the rows looked at)`,
  found_rate_without_unit: ({ facts }: { facts: CodedReason }, say) =>
    `angular rate without a unit, ${say.because(facts)}`,
  peak_beside_shake: ({ peak, g }: { peak: number; g: number }, say) =>
    `peak ${say.number(peak)} while the acceleration peaks at ${say.number(g, 1)} g`,
  found_radians_too_many: ({ peak }: { peak: number }, say) =>
    `angular rate written as rad/s that peaks at ${say.number(peak)}, beyond every sensor`,
  found_sensors_without_side: ({ n, name, values }: { n: number; name: string; values: readonly string[] }) =>
    `rows of ${n} sensors told apart by "${name}" (${values.join(', ')}), which does not tell which two are left and right`,
  found_codes: ({ name, codes, rates }: { name: string; codes: readonly string[]; rates: readonly string[] }) =>
    `rows told apart by "${name}" (${codes.join(', ')}), of which ${rates.join(' and ')} may be angular rate`,
  found_angles_named: ({ names }: { names: readonly string[] }, say) =>
    `angular rates named ${say.list(names.map((name) => `"${name}"`))}, which makers put about different axes`,
  found_unknown_accelerations: ({ triples }: { triples: readonly (readonly Column[])[] }) =>
    `columns whose names are not known and of which no three alone have a norm of 1 g at rest: ${triples.map(named).join('; ')}`,
  found_several_rates: ({ acc, rates }: { acc: readonly Column[]; rates: readonly (readonly Column[])[] }) =>
    `acceleration (${named(acc)}) and ${rates.length} sets of angular rate: ${rates.map(named).join('; ')}`,
  found_several_sensors: ({ names }: { names: readonly string[] }) =>
    `${names.length} sensors or versions of the acceleration in one file (${quoted(names)})`,
  found_unknown_rates: ({ acc, rates }: { acc: readonly Column[]; rates: readonly (readonly Column[])[] }) =>
    `acceleration (${named(acc)}) and ${rates.map(named).join('; ')}, whose names are not known; they may be the angular rate`,
  found_rates_in_other_unit: ({ acc, rates }: { acc: readonly Column[]; rates: readonly Column[] }) =>
    `acceleration (${named(acc)}) and ${named(rates)}, named as angular rate in a unit of something else`,
  found_several_people: ({ name, values }: Named & { values: readonly string[] }) =>
    `rows of several people or recordings, told apart by "${name}" (${values.slice(0, 12).join(', ')}${values.length > 12 ? ', ...' : ''})`,
  found_double_comma: ({ row }: { row: string }) =>
    `rows such as "${row}", in which the comma may part columns and decimals alike`,
  found_two_clocks: ({ left, right }: { left: string; right: string }) =>
    `a clock for each foot ("${left}", "${right}") whose stamps differ from row to row`,
  found_interval: ({ name, mean }: Named & { mean: number }, say) =>
    `"${name}", the time since the row before, of ${say.number(mean)} on average`,
  found_interval_in_turn: ({ name, sensors }: Named & { sensors: number }) =>
    `"${name}" beside rows of ${sensors} sensors in turn: the time since the row before, or since the same sensor's row before`,
  found_time_misfit: (
    {
      column,
      unit,
      step,
      hz,
      motion,
    }: {
      column: Column;
      unit: string;
      step: number;
      hz: number;
      motion: boolean;
    },
    say,
  ) =>
    `${named([column])} written in ${unit}, in which its step of ${say.number(step)} would be ${say.number(hz)} Hz${motion ? ', at which the sensor would not have moved as a leg does' : ''}`,
  found_time_without_unit: ({ column, step }: { column: Column; step: number }, say) =>
    `${named([column])}, which grows by ${say.number(step)} a row and has no unit`,
  // What it may be
  choice_unit: ({ unit }: { unit: string }) => unit,
  choice_as_written: ({ unit }: { unit: string }) => `${unit} as written`,
  choice_rate: ({ unit, hz }: { unit: string; hz: number }, say) => `${unit} (${say.number(hz)} Hz)`,
  choice_counts_g: ({ counts }: { counts: number }) => `counts, ${counts} a g`,
  choice_counts_g_of_range: ({ counts, range }: { counts: number; range: number }) =>
    `counts, ${counts} a g (16 bit at +-${range} g)`,
  choice_counts_dps: ({ counts, range }: { counts: number; range: number }) =>
    `counts, ${counts} a deg/s (16 bit at +-${range} deg/s)`,
  choice_angles: ({ axes }: { axes: readonly string[] }) =>
    `alpha about ${axes[0]}, beta about ${axes[1]}, gamma about ${axes[2]}`,
  choice_acceleration: ({ columns }: { columns: readonly Column[] }) => `${named(columns)} the acceleration`,
  choice_rates: ({ columns }: { columns: readonly Column[] }) => `${named(columns)} the angular rate`,
  choice_no_rates: 'no angular rate in this file',
  choice_feet: ({ left, right }: { left: CodedReason; right: CodedReason }, say) =>
    `${say.because(left)} left and ${say.because(right)} right`,
  choice_rows_of: ({ value }: { value: string }) => `the rows of "${value}"`,
  choice_alone: ({ sensor }: { sensor: CodedReason }, say) => `${say.because(sensor)} alone`,
  sensor_named: ({ name }: Named) => `"${name}"`,
  sensor_plain: ({ name }: Named) => name,
  sensor_columns: ({ columns }: { columns: readonly number[] }) => `columns ${columns.join(', ')}`,
  choice_each_at: ({ hz }: { hz: number }, say) => `each sensor at ${say.number(hz)} Hz`,
  choice_row_number: ({ hz, motion }: { hz: number; motion: boolean }) =>
    `the number of the row, at ${hz} Hz (${motion ? 'as the motion allows' : 'here 500 Hz, give yours'})`,
  choice_ticks: ({ hz, motion }: { hz: number; motion: boolean }) =>
    `ticks, at ${hz} Hz (${motion ? 'as the motion allows' : 'here 500 Hz, give yours'})`,
  /** Each with what to pass as the layout, for programs. */
  choices: ({ choices }: { choices: readonly { label: CodedReason; correction: string }[] }, say) =>
    choices.map(({ label, correction }) => `${say.because(label)}: ${correction}`).join(' | '),
  // What to do
  do_layout: ({ example }: { example: string }) =>
    `Say which in a layout file, for example ${example}, and read the file again with it.`,
  do_correct_names: 'Correct that line: one name a column, in quotes where a name holds the delimiter.',
  do_correct_header: 'Correct the header, or give a layout with the unit.',
  do_add_names:
    'Add a line of column names to the file, or give a layout that says which columns are acceleration and gyroscope.',
  do_name_sides: ({ a, b, name }: { a: string; b: string; name: string }) =>
    `Say which in a layout, for example {"side_values":{"${a}":"left","${b}":"right"}}, write left and right into column "${name}", or give one file a sensor.`,
  do_rows_of: ({ example }: { example: string }) =>
    `Say whose rows to read in a layout file, for example ${example}, or give one file a person.`,
  do_export_signed:
    'Export whole numbers with their sign and about zero (counts above 32767 are negative ones), or give the counts a g in a layout file, for example {"acc_counts_per_g":2048}.',
  do_write_quantity: 'Write the quantity into that column, or leave the other rows out.',
  do_sensor_sides:
    'Say which in a layout file (--layout), such as {"sensor_sides":["left","right"]} in the order of the columns.',
  do_export_again: 'Export the file again with a semicolon or tab between columns, or with decimal points.',
  do_one_file_a_sensor: 'Give one file a sensor: they are put on one clock afterwards.',
  do_rate: ({ hz, example }: { hz: number; example: string }) =>
    `Give the sampling rate, for example --rate ${hz}hz, or say the unit in a layout file such as ${example}.`,
  found_angles: ({ names, unit }: { names: readonly string[]; unit: string }) =>
    `${quoted(names)}, named as angular rate; the acceleration shows that they hold angles in ${unit}`,
  choice_rates_as_named: 'angular rate as named',
  do_export_rates:
    'Export the angular rate (gyroscope) itself; without it contacts are found by the acceleration alone.',
} as const satisfies PhraseRoom;
