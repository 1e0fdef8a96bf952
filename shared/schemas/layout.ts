/**
 * How a file's columns are named, scaled and timed. One JSON object describes every file of the same shape: a layout that
 * was found or corrected once is saved, exchanged and used again. `fingerprint` names the shape it fits.
 */
import { type Static, type TStringOptions, Type } from 'typebox';

/** Text encodings that are read. */
export const ENCODINGS = [
  'utf-8',
  'utf-16le',
  'utf-16be',
  'windows-1252',
  'windows-1250',
  'iso-8859-2',
  'windows-1251',
  'windows-1253',
  'windows-1254',
  'windows-1255',
  'windows-1256',
  'windows-1258',
  'windows-874',
  'koi8-r',
  'shift_jis',
  'euc-jp',
  'gb18030',
  'euc-kr',
] as const;
/** Units of the time column; `interval` is the time since the row before; `rows` means there is none and the rate is given. */
export const TIME_KINDS = ['number', 'interval', 'iso', 'date_and_clock', 'clock', 'rows'] as const;
export const DATE_ORDERS = ['ymd', 'dmy', 'mdy'] as const;

const strict = { additionalProperties: false } as const;
const oneOf = <T extends readonly string[]>(words: T) => Type.Enum([...words]) as unknown as OneOf<T>;
type OneOf<T extends readonly string[]> = Type.TUnion<{ -readonly [K in keyof T]: Type.TLiteral<T[K] & string> }>;

/** Columns of a file that are looked at, from the left; a wider file may go on behind them. */
export const MOST_COLUMNS = 500;
/** Characters of a line that may be names; a longer one is rows or none of ours. */
export const LONGEST_HEADER = 10_000;
const MOST_SENSORS = 20;
const Name = (options: TStringOptions = {}) => Type.String({ ...options, maxLength: LONGEST_HEADER });
/** Factor to SI units, or length of a tick: from a nanosecond on. */
const Factor = Type.Number({ exclusiveMinimum: 0, maximum: 1e6 });
const ColumnIndex = Type.Integer({ minimum: 0, maximum: MOST_COLUMNS - 1 });
/** A layout as text: every column named at full length. */
export const LONGEST_LAYOUT_TEXT = 200_000;

/** A column by its 0-based position, or by its name as the file spells it. */
export const ColumnReference = Type.Union([ColumnIndex, Name({ minLength: 1 })]);

const Sign = Type.Number({ minimum: -1, maximum: 1 });

export const AxisTriple = Type.Object(
  {
    /** Columns that feed x, y and z, in this order: swapping two of them swaps axes. */
    columns: Type.Tuple([ColumnReference, ColumnReference, ColumnReference]),
    /** -1 turns an axis round. */
    signs: Type.Tuple([Sign, Sign, Sign]),
    /** As written or found: g, mg, m/s2, counts; deg/s, mdeg/s, rad/s. Words only: `to_si` does the work. */
    unit: Name(),
    /** Columns added to these, in the same unit: gravity, where it was taken off the acceleration. */
    plus: Type.Optional(Type.Tuple([ColumnReference, ColumnReference, ColumnReference])),
    /** One unit in m/s2 or rad/s. */
    to_si: Factor,
  },
  strict,
);

export const SensorColumns = Type.Object(
  {
    side: oneOf(['left', 'right', 'unknown'] as const),
    /** What the side column holds for this sensor; null where the file holds one sensor or a set of columns for each. */
    side_value: Type.Union([Name(), Type.Null()]),
    acc: AxisTriple,
    gyr: Type.Union([AxisTriple, Type.Null()]),
    /** What the quantity column holds in this sensor's rows of acceleration and of angular rate, where each has rows of its own. */
    acc_value: Type.Optional(Name()),
    gyr_value: Type.Optional(Name()),
  },
  strict,
);

export const TimeColumns = Type.Object(
  {
    kind: oneOf(TIME_KINDS),
    /** One column, or two for `date_and_clock`; none for `rows`. */
    columns: Type.Array(ColumnReference, { maxItems: 2 }),
    /** Seconds that one unit of a `number` column stands for: 1, 1e-3, 1e-6, 1e-9, or one tick. */
    seconds_per_unit: Factor,
    /** Seconds from 1970-01-01T00:00Z to a `number` column's zero: 0 for Unix time; null where it has no date. */
    epoch_s: Type.Union([Type.Number({ minimum: -1e12, maximum: 1e12 }), Type.Null()]),
    date_order: Type.Union([oneOf(DATE_ORDERS), Type.Null()]),
    /** Sampling rate, needed for `rows` only. */
    rate_hz: Type.Union([Type.Number({ exclusiveMinimum: 0, maximum: 1e6 }), Type.Null()]),
    /** Column that holds what lies between whole seconds, such as milliseconds. */
    fraction: Type.Optional(Type.Object({ column: ColumnReference, seconds_per_unit: Factor }, strict)),
    /** True where only a packet's first row carries a stamp and the rows after it have an empty cell. */
    carried: Type.Optional(Type.Boolean()),
  },
  strict,
);

export const TextShape = Type.Object(
  {
    encoding: oneOf(ENCODINGS),
    /** One character; a blank stands for any run of blanks. */
    delimiter: Type.String({ minLength: 1, maxLength: 1 }),
    decimal_mark: oneOf(['.', ','] as const),
    header_row: Type.Boolean(),
    units_row: Type.Boolean(),
    /** Cells read as 'missing' besides the empty one. */
    missing_values: Type.Array(Name(), { maxItems: 50 }),
    /** 1-based line in which the rows begin, where a file does not show it by itself; what lies above is preamble and names. */
    rows_from_line: Type.Optional(Type.Integer({ minimum: 1, maximum: 1_000_000 })),
  },
  strict,
);

/** Rows that are read, by a column that says whose they are; the others are passed over. */
export const RowsOf = Type.Object(
  { column: ColumnReference, values: Type.Array(Name(), { minItems: 1, maxItems: 100 }) },
  strict,
);

export const Layout = Type.Object(
  {
    layout_version: Type.Literal(1),
    name: Name(),
    /** Names the shape of the files it fits: delimiter, decimal mark, header and units. */
    fingerprint: Type.String({ maxLength: 100 }),
    text: TextShape,
    /** Column names as the file spells them; empty without a header row. */
    column_names: Type.Array(Name(), { maxItems: MOST_COLUMNS }),
    column_count: Type.Integer({ minimum: 1, maximum: 1_000_000 }),
    time: TimeColumns,
    /** Packet or sample counter, by which lost samples are known. */
    counter: Type.Union([ColumnReference, Type.Null()]),
    side_column: Type.Union([ColumnReference, Type.Null()]),
    /** Column that says whether a row holds acceleration or angular rate; rows of anything else are passed over. */
    quantity_column: Type.Optional(ColumnReference),
    /** True where acceleration and angular rate stand in rows of their own and the other's cells are empty. */
    rows_alternate: Type.Optional(Type.Boolean()),
    /** One person's rows, where a file holds those of several. */
    rows_of: Type.Optional(RowsOf),
    sensors: Type.Array(SensorColumns, { minItems: 1, maxItems: MOST_SENSORS }),
  },
  strict,
);

export type ColumnReference = Static<typeof ColumnReference>;
export type AxisTriple = Static<typeof AxisTriple>;
export type SensorColumns = Static<typeof SensorColumns>;
export type TimeColumns = Static<typeof TimeColumns>;
export type TextShape = Static<typeof TextShape>;
export type Layout = Static<typeof Layout>;

/** What a user may fix by hand; the rest is found from the file. The units apply to every sensor of the file. */
export const LayoutCorrection = Type.Object(
  {
    name: Type.Optional(Name()),
    text: Type.Optional(Type.Partial(TextShape)),
    time: Type.Optional(Type.Partial(TimeColumns)),
    counter: Type.Optional(Type.Union([ColumnReference, Type.Null()])),
    side_column: Type.Optional(Type.Union([ColumnReference, Type.Null()])),
    quantity_column: Type.Optional(ColumnReference),
    rows_alternate: Type.Optional(Type.Boolean()),
    rows_of: Type.Optional(RowsOf),
    sensors: Type.Optional(Type.Array(SensorColumns, { minItems: 1, maxItems: MOST_SENSORS })),
    /** Which columns are the acceleration, where the file holds it more than once; the rest is found. */
    acc_columns: Type.Optional(Type.Tuple([ColumnReference, ColumnReference, ColumnReference])),
    /** Which columns are the angular rate about x, y and z, where their names do not tell; null where there is none. */
    gyr_columns: Type.Optional(
      Type.Union([Type.Tuple([ColumnReference, ColumnReference, ColumnReference]), Type.Null()]),
    ),
    /** The sides of the sensors, in the order of their columns, where the names do not tell; one of unknown side is not read. */
    sensor_sides: Type.Optional(
      Type.Array(oneOf(['left', 'right', 'unknown'] as const), { minItems: 1, maxItems: MOST_SENSORS }),
    ),
    /** The side that each value of the column of sensors stands for; rows of values that are not named are passed over. */
    side_values: Type.Optional(Type.Record(Name(), oneOf(['left', 'right'] as const), { maxProperties: 100 })),
    acc_unit: Type.Optional(oneOf(['g', 'mg', 'ug', 'm/s2'] as const)),
    gyr_unit: Type.Optional(oneOf(['deg/s', 'mdeg/s', 'rad/s'] as const)),
    acc_counts_per_g: Type.Optional(Factor),
    gyr_counts_per_dps: Type.Optional(Factor),
  },
  strict,
);
export type LayoutCorrection = Static<typeof LayoutCorrection>;
