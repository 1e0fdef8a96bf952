import type { CodedReason } from '../../reason-shape.ts';
import type { TimeColumns } from '../../schemas/layout.ts';
import type { Side } from '../../words.ts';
import type { PhraseRoom } from '../sentence.ts';
import { type Column, named } from './column-names.ts';

/** Values of a column that say what a row holds. */
type RowValues = { side: Side; acc: string; gyr: string | null };

const MARKS = { comma: 'comma', semicolon: 'semicolon', tab: 'tab', bar: 'bar', blanks: 'blanks', point: 'point' };

type SideValues = { column: Column; sides: readonly { value: string; side: Side }[] };
const sidesOf = ({ column, sides }: SideValues): string =>
  `column ${named([column])}: ${sides.map(({ value, side }) => `${value} is ${side}`).join(', ')}`;

/** What was understood about a file (`took_`), and what that rests on (`by_`): parts of one line each. */
export const layoutEvidence = {
  took_none: 'none',
  took_text: ({ text }: { text: string }) => text,
  took_mark: ({ mark }: { mark: keyof typeof MARKS }) => MARKS[mark],
  took_saved_layout: ({ name }: { name: string }) => `saved layout "${name}"`,
  took_columns: ({ columns }: { columns: readonly Column[] }) => named(columns),
  took_span: ({ from, to }: { from: number; to: number }) => `columns ${from} to ${to}`,
  took_sum: ({ columns }: { columns: readonly Column[] }) => `${named(columns)} added to the acceleration`,
  took_sides: ({ sides }: { sides: readonly Side[] }, say) => say.list(sides),
  took_side_column: (values: SideValues) => sidesOf(values),
  took_sides_among: (values: SideValues) => `${sidesOf(values)}; other rows are passed over`,
  took_quantity_column: ({ column, rows }: { column: Column; rows: readonly RowValues[] }) =>
    `column ${named([column])}: ${rows
      .map(
        ({ side, acc, gyr }) =>
          `${side === 'unknown' ? '' : `${side}: `}${acc} is acceleration${gyr === null ? '' : `, ${gyr} angular rate`}`,
      )
      .join('; ')}`,
  took_interpolated: "brought to the acceleration's instants",
  took_unit: ({ unit }: { unit: string }) => unit,
  took_time_kind: ({ kind }: { kind: TimeColumns['kind'] }) =>
    ({
      rows: 'rows at one rate',
      number: 'a number',
      iso: 'date and time in one cell',
      date_and_clock: 'a date and a clock time',
      clock: 'a clock time',
      interval: 'the time since the row before',
    })[kind],
  took_time_in: ({ column, unit }: { column: Column; unit: string }) => `${named([column])} in ${unit}`,
  took_time_of: ({ column, of }: { column: Column; of: number }) => `${named([column])} of ${of} columns of time`,
  took_summed: ({ column, unit }: { column: Column; unit: string }) => `${named([column])} summed up, in ${unit}`,
  took_fraction: ({ column, unit }: { column: Column; unit: string }) => `${named([column])} adds ${unit}`,
  took_rate: ({ hz }: { hz: number }, say) => `rows at ${say.number(hz)} Hz`,
  took_no_stamps: 'dates and clock times not used',
  took_no_date: ({ column }: { column: Column }) => `${named([column])} not used`,
  took_no_order: 'not told apart',

  by_layout: 'from the layout',
  by_user: 'given',
  by_line: ({ line }: { line: string }) => `"${line}"`,
  by_file_name: ({ file }: { file: string }) => `the file's name "${file}"`,
  by_column: 'written with the column',
  by_names: 'names, units and letters of the axes',
  by_names_of_side: 'the column names carry the side',
  by_nothing_of_side: 'nothing tells the side',
  by_every_row: 'every row carries it',
  by_one_place: 'the only two that are left and right of one place',
  by_fingerprint: 'made for files of this shape',
  // Text
  by_first_sheet: ({ sheets }: { sheets: number }) => `the first of ${sheets} sheets`,
  by_only_sheet: 'the only sheet',
  by_byte_order_mark: 'byte-order mark',
  by_zero_bytes: 'every second byte is zero',
  by_valid_utf8: 'valid UTF-8',
  by_code_page: ({ encoding, words }: { encoding: string; words: readonly string[] }) =>
    `not valid UTF-8; in ${encoding} ${words.join(', ')} are words`,
  by_no_utf8: 'not valid UTF-8; read as Windows-1252, the superset of Latin-1',
  by_even_split: ({ columns }: { columns: number }) => `splits the rows into ${columns} columns of numbers throughout`,
  by_numbers: 'the cells read as numbers with it',
  by_misfit_names: ({ line, names, columns }: { line: number; names: number; columns: number }) =>
    `line ${line} has ${names} names for ${columns} columns; they were not used`,
  by_no_names: 'no line of names above the first row',
  // Columns
  by_turning_nameless: 'without names: turned back by the others, their mean is 1 g',
  by_gravity_nameless: 'without names: the three columns whose norm at rest is 1 g',
  by_zero_nameless: 'without names: the three columns that rest at zero',
  by_no_zero_nameless: 'no single three columns rest at zero',
  by_gravity_unknown: 'names not known, but the only three axes whose norm at rest is 1 g',
  by_turning_unknown: 'names not known, but turned back by them the acceleration leaves 1 g',
  by_gravity_axes: 'the only three axes, and their norm at rest is 1 g',
  by_gravity_apart: 'it was taken off and stands in columns of its own; the sum is what the sensor read',
  by_unit_beside_counts: 'the other is counts of the same; this one has a unit',
  by_filtered_beside: 'the other is named as filtered; contacts are found in what the sensor read',
  by_no_rate_columns: 'no three columns of angular rate',
  by_only_zeros: 'its columns hold nothing but zeros',
  by_axes_of_rows: 'the axes of its rows',
  by_rest_of_rows: ({ acc, gyr }: { acc: string; gyr: string | null }) =>
    `rows of ${acc} have a norm of 1 g at rest${gyr === null ? '' : `, rows of ${gyr} rest at zero`}`,
  by_rows_apart: 'the two stand in rows of their own: on the straight line between two neighbours, never across a gap',
  by_growing: 'grows by one a row; steps above one are lost samples',
  // Units
  by_counts_of_layout: ({ counts, unit }: { counts: number; unit: string }, say) =>
    `${say.number(counts)} counts a ${unit}, from the layout`,
  by_counts_of_line: ({ counts, unit, line }: { counts: number; unit: string; line: string }, say) =>
    `${say.number(counts)} counts a ${unit}, from "${line}"`,
  by_whole_numbers: ({ facts, counts }: { facts: CodedReason; counts: number }, say) =>
    `whole numbers; ${say.because(facts)}, next to ${counts} counts a g`,
  by_too_much_for_degrees: ({ facts, dps }: { facts: CodedReason; dps: number }, say) =>
    `${say.because(facts)}: too much motion for ${say.number(dps, 0)} deg/s`,
  // Time
  by_same_stamps: 'they are the same in every row looked at',
  by_steadiest: 'the steadiest, and not the time of arrival',
  by_interval_name: ({ hz }: { hz: number }, say) =>
    `named as the time since the row before; gives ${say.number(hz)} Hz`,
  by_whole_seconds: 'the stamps are whole seconds, and with it they grow evenly',
  by_stamps: ({ stamp }: { stamp: string }) => `dates or clock times such as ${stamp}`,
  by_either_order: ({ stamp }: { stamp: string }) =>
    `${stamp}: day and month may be either; the date is left out, the time is kept`,
  by_no_zone: 'none is written',
  by_no_clock: ({ file }: { file: string }) => `dates without a clock time in ${file}`,
  by_rate_given: 'rate given, no time column',
  by_rate_line: ({ line }: { line: string }) => `"${line}", no time column`,
  by_date: ({ hz }: { hz: number }, say) => `a date of today by its size; gives ${say.number(hz)} Hz`,
  by_stated_rate: ({ hz, stated_hz }: { hz: number; stated_hz: number }, say) =>
    `its step gives ${say.number(hz)} Hz, as stated (${say.number(stated_hz)} Hz)`,
  by_next_rate: ({ step, stated_hz }: { step: number; stated_hz: number }, say) =>
    `a step of ${say.number(step)} next to the stated ${say.number(stated_hz)} Hz`,
  by_step_at_rate: ({ step, stated_hz }: { step: number; stated_hz: number }, say) =>
    `a step of ${say.number(step)} at the stated ${say.number(stated_hz)} Hz`,
  by_written_unit: ({ hz }: { hz: number }, say) => `written; gives ${say.number(hz)} Hz`,
  by_motion: ({ step, hz }: { step: number; hz: number }, say) =>
    `its step of ${say.number(step)} gives ${say.number(hz)} Hz, at which the sensor moved as a leg does`,
  by_only_unit: ({ step, hz }: { step: number; hz: number }, say) =>
    `its step of ${say.number(step)} gives ${say.number(hz)} Hz; no other unit gives a rate from 8 to 8000 Hz`,
} as const satisfies PhraseRoom;
