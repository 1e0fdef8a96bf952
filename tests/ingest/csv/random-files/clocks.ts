import type { Draw } from './draw.ts';
import type { Language } from './languages.ts';

/** How a file tells the time of its rows. */
export interface Clock {
  kind: string;
  /** Names of the columns; none where rows carry no time. */
  names: string[];
  /** Unit for a units row or behind the name; '' where none would be written. */
  unit: string;
  preamble: string[];
  /** Cells of one row: seconds from the first sample, number of the row. */
  cells: (t: number, row: number) => string[];
  /** Smallest step the cells show, seconds. */
  resolution_s: number;
  /** Where nothing tells the rate: it must be asked for. */
  needs_rate?: boolean;
  /** Seconds since 1970 of the first sample, where the file tells without doubt. */
  start_s?: number;
}

type Make = (draw: Draw, language: Language, rate: number) => Clock;
const pad = (value: number, length = 2) => String(Math.floor(value)).padStart(length, '0');
/** 25 November 2026, 14:03:22 UTC, plus up to two days. */
const begin = (draw: Draw) => Date.UTC(2026, 10, 25, 14, 3, 22) / 1000 + Math.floor(draw.between(0, 150_000));
const name = (draw: Draw, language: Language) => draw.pick(language.time);

const counted =
  (kind: string, seconds: number, decimals: number, suffixes: string[], unit: string): Make =>
  (draw, language) => {
    const offset = draw.chance(0.5) ? 0 : Math.floor(draw.between(0, 5000));
    const bare = draw.chance(0.35);
    return {
      kind,
      names: [name(draw, language) + (bare ? '' : draw.pick(suffixes))],
      unit: bare ? unit : '',
      preamble: [],
      cells: (t) => [((offset + t) / seconds).toFixed(decimals)],
      resolution_s: seconds * 10 ** -decimals,
    };
  };

const unix =
  (kind: string, per_s: bigint, digits: number): Make =>
  (draw, language) => {
    const start = begin(draw);
    return {
      kind,
      names: [draw.pick([name(draw, language), 'unix_time', 'epoch', 'UTC', 'timestamp'])],
      unit: '',
      preamble: [],
      cells: (t) => [
        digits > 0
          ? (start + t).toFixed(digits)
          : String(BigInt(start) * per_s + BigInt(Math.round(t * Number(per_s)))),
      ],
      resolution_s: digits > 0 ? 10 ** -digits : Math.max(1e-6, 1 / Number(per_s)),
      start_s: start,
    };
  };

/** Days, hours or minutes with decimals, from a zero of their own. */
const decimalDays =
  (kind: string, day_of_1970: number, decimals: number, names: string[]): Make =>
  (draw, language) => {
    const start = begin(draw);
    return {
      kind,
      names: [draw.pick([...names, name(draw, language)])],
      unit: '',
      preamble: [],
      cells: (t) => [(day_of_1970 + (start + t) / 86_400).toFixed(decimals)],
      resolution_s: 86_400 * 10 ** -decimals + 86_400 * 5e-10 * (day_of_1970 > 1e6 ? 1 : 0.25),
      start_s: start,
    };
  };

function clockText(t: number, digits: number): string {
  const s = ((t % 86_400) + 86_400) % 86_400;
  const mark = '.';
  const whole = Math.floor(s + 1e-9);
  const part = Math.round((s - whole) * 10 ** digits);
  const [w, p] = part >= 10 ** digits ? [whole + 1, 0] : [whole, Math.max(0, part)];
  return `${pad(w / 3600)}:${pad((w / 60) % 60)}:${pad(w % 60)}${digits > 0 ? mark + pad(p, digits) : ''}`;
}

function dateText(s: number, order: 'ymd' | 'dmy' | 'mdy', mark: string): string {
  const date = new Date(s * 1000);
  const [y, m, d] = [String(date.getUTCFullYear()), pad(date.getUTCMonth() + 1), pad(date.getUTCDate())];
  return { ymd: [y, m, d], dmy: [d, m, y], mdy: [m, d, y] }[order].join(mark);
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const textClock =
  (kind: string, write: (rounded: number) => string, dated: boolean, from_s: [number, number] = [0, 80_000]): Make =>
  (draw, language) => {
    const start = dated ? begin(draw) : Math.floor(draw.between(...from_s));
    return {
      kind,
      names: [draw.pick([name(draw, language), 'timestamp', 'time'])],
      unit: '',
      preamble: [],
      cells: (t) => [write(Number((start + t).toFixed(3)))],
      resolution_s: 1e-3,
      ...(dated ? { start_s: start } : {}),
    };
  };
const ofDay = (s: number, mark = '.') => clockText(s, 3).replace('.', mark);
const halfDay = (s: number) => {
  const hour = Math.floor((s % 86_400) / 3600);
  return `${pad(hour % 12 || 12)}${ofDay(s).slice(2)} ${hour < 12 ? 'AM' : 'PM'}`;
};
const TEXT_CLOCKS: [string, Make, number][] = [
  ['twelve hours', textClock('twelve hours', halfDay, false), 1],
  ['colon before milliseconds', textClock('colon before milliseconds', (s) => ofDay(s, ':'), false), 1.5],
  ['comma before milliseconds', textClock('comma before milliseconds', (s) => ofDay(s, ','), false), 1.5],
  ['minutes and seconds', textClock('minutes and seconds', (s) => ofDay(s).slice(3), false, [0, 3000]), 1.5],
  ['elapsed', textClock('elapsed', (s) => ofDay(s).replace(/^0/, ''), false, [0, 100]), 1],
  [
    'month by name',
    textClock(
      'month by name',
      (s) => {
        const date = new Date(s * 1000);
        return `${pad(date.getUTCDate())}-${MONTHS[date.getUTCMonth()]}-${date.getUTCFullYear()} ${ofDay(s)}`;
      },
      true,
    ),
    1,
  ],
  [
    'zone of its own',
    textClock('zone of its own', (s) => `${dateText(s + 7200, 'ymd', '-')}T${ofDay(s + 7200)}+02:00`, true),
    1,
  ],
  ['compact', textClock('compact', (s) => `${dateText(s, 'ymd', '')}T${ofDay(s).replaceAll(':', '')}Z`, true), 1],
];

/** Kind, maker, weight, and the fastest rate at which the clock's truth can be known at all. */
export const CLOCKS: [string, Make, number, number?][] = [
  ['seconds', counted('seconds', 1, 4, ['_s', ' [s]', ' (s)', '(s)', ' in s'], 's'), 10],
  ['seconds, many digits', counted('seconds, many digits', 1, 6, [' (s)', '_sec', ''], 's'), 5],
  ['milliseconds', counted('milliseconds', 1e-3, 0, ['_ms', ' [ms]', ' (ms)', '(ms)'], 'ms'), 6],
  ['milliseconds, decimals', counted('milliseconds, decimals', 1e-3, 3, ['_ms', ' [ms]', ' (ms)'], 'ms'), 4],
  ['microseconds', counted('microseconds', 1e-6, 0, ['_us', ' [µs]', ' (us)'], 'us'), 5],
  ['nanoseconds', counted('nanoseconds', 1e-9, 0, ['_ns', ' (ns)', ''], 'ns'), 3],
  [
    'ten microseconds',
    (draw, l, r) => ({
      ...counted('ten microseconds', 1e-5, 0, ['_10us', ' [10us]', ' (10 µs)'], '')(draw, l, r),
      unit: '',
    }),
    3,
  ],
  ['unix seconds', unix('unix seconds', 1n, 4), 4],
  ['unix milliseconds', unix('unix milliseconds', 1000n, 0), 4],
  ['unix microseconds', unix('unix microseconds', 1_000_000n, 0), 3],
  ['unix nanoseconds', unix('unix nanoseconds', 1_000_000_000n, 0), 3],
  ['spreadsheet days', decimalDays('spreadsheet days', 25_569, 10, ['Date', 'DateTime']), 3],
  [
    'share of a day',
    (draw) => {
      const offset = draw.between(0.1, 0.9);
      return {
        kind: 'share of a day',
        names: [draw.pick(['time', 'Time of day', 'Uhrzeit'])],
        unit: '',
        preamble: [],
        cells: (t) => [(offset + t / 86_400).toFixed(10)],
        resolution_s: 1e-5,
        needs_rate: true,
      };
    },
    1,
  ],
  ['matlab days', decimalDays('matlab days', 719_529, 10, ['datenum', 'matlab_time']), 2],
  ['julian days', decimalDays('julian days', 2_440_587.5, 10, ['JD', 'julian_date', 'Julian Day']), 2],
  [
    'ticks of 100 ns',
    (draw, language) => {
      const start = begin(draw);
      const zero = draw.chance(0.5) ? 621_355_968_000_000_000n : 116_444_736_000_000_000n;
      return {
        kind: 'ticks of 100 ns',
        names: [draw.pick(['Ticks', 'FileTime', name(draw, language)])],
        unit: '',
        preamble: [],
        cells: (t) => [String(zero + BigInt(start) * 10_000_000n + BigInt(Math.round(t * 1e7)))],
        resolution_s: 3e-5,
        start_s: start,
      };
    },
    3,
  ],
  [
    'decimal hours',
    (draw) => {
      const offset = draw.between(0, 23) * 3600;
      const named = draw.pick(['time_h', 'Time [h]', 'hours', 'Zeit [h]', 'Stunden']);
      return {
        kind: 'decimal hours',
        names: [named],
        unit: '',
        preamble: [],
        cells: (t) => [((offset + t) / 3600).toFixed(9)],
        resolution_s: 3.6e-6,
      };
    },
    2,
  ],
  [
    'decimal minutes',
    (draw) => {
      const named = draw.pick(['time_min', 'Time [min]', 'minutes', 'Zeit (min)']);
      return {
        kind: 'decimal minutes',
        names: [named],
        unit: '',
        preamble: [],
        cells: (t) => [((200 + t) / 60).toFixed(7)],
        resolution_s: 6e-6,
      };
    },
    2,
  ],
  [
    'iso text',
    (draw, language) => {
      const start = begin(draw);
      const [mid, end, digits] = draw.pick([
        ['T', 'Z', 3],
        ['T', 'Z', 6],
        [' ', '', 3],
        ['T', '+00:00', 4],
        ['T', '', 4],
      ] as const);
      return {
        kind: 'iso text',
        names: [draw.pick([name(draw, language), 'timestamp', 'datetime'])],
        unit: '',
        preamble: [],
        cells: (t) => {
          const rounded = Number((start + t).toFixed(digits));
          return [`${dateText(rounded, 'ymd', '-')}${mid}${clockText(rounded, digits)}${end}`];
        },
        resolution_s: 10 ** -digits,
        start_s: start,
      };
    },
    6,
  ],
  [
    'date and clock',
    (draw, language) => {
      const start = begin(draw);
      const [order, mark] = draw.pick([
        ['dmy', '.'],
        ['ymd', '-'],
        ['dmy', '/'],
        ['mdy', '/'],
      ] as const);
      return {
        kind: 'date and clock',
        names: [draw.pick(['Date', 'Datum', 'Fecha', 'Data']), name(draw, language)],
        unit: '',
        preamble: [],
        cells: (t) => {
          const rounded = Number((start + t).toFixed(3));
          return [dateText(rounded, order, mark), clockText(rounded, 3)];
        },
        resolution_s: 1e-3,
        start_s: start,
      };
    },
    4,
  ],
  [
    'clock text',
    (draw, language) => {
      const start = draw.between(0, 86_000);
      return {
        kind: 'clock text',
        names: [name(draw, language)],
        unit: '',
        preamble: [],
        cells: (t) => [clockText(Number((start + t).toFixed(3)), 3)],
        resolution_s: 1e-3,
      };
    },
    4,
  ],
  ...TEXT_CLOCKS,
  [
    'whole-second stamps',
    (draw, language) => {
      const start = begin(draw);
      const text = draw.chance(0.7);
      return {
        kind: 'whole-second stamps',
        names: [name(draw, language)],
        unit: '',
        preamble: [],
        cells: (t) => [
          text
            ? `${dateText(Math.floor(start + t + 1e-9), 'ymd', '-')} ${clockText(Math.floor(start + t + 1e-9), 0)}`
            : String(Math.floor(start + t + 1e-9)),
        ],
        resolution_s: 1,
        start_s: start,
      };
    },
    3,
  ],
  [
    'rate above the table',
    (draw, _language, rate) => ({
      kind: 'rate above the table',
      names: [],
      unit: '',
      preamble: [
        draw.pick([
          `Sampling rate: ${rate} Hz`,
          `# Abtastrate: ${rate} Hz`,
          `Fréquence d'échantillonnage : ${rate} Hz`,
          `fs = ${rate}`,
          `Frecuencia de muestreo (Hz): ${rate}`,
          `Sampling interval: ${1000 / rate} ms`,
          `Частота дискретизации: ${rate} Гц`,
          `サンプリング周波数: ${rate} Hz`,
        ]),
      ],
      cells: () => [],
      resolution_s: 0,
    }),
    5,
  ],
  [
    'row number, rate above the table',
    (draw, _language, rate) => {
      const from = draw.pick([0, 1, 4711]);
      return {
        kind: 'row number, rate above the table',
        names: [draw.pick(['sample', 'Index', 'n', 'Nr', 'frame', 'Packet Counter'])],
        unit: '',
        preamble: [`Sample rate: ${rate} Hz`],
        cells: (_t, row) => [String(from + row)],
        resolution_s: 0,
      };
    },
    4,
  ],
  [
    'row number alone',
    (draw) => ({
      kind: 'row number alone',
      names: [draw.pick(['sample', 'index', 'frame', 'Nr'])],
      unit: '',
      preamble: [],
      cells: (_t, row) => [String(row)],
      resolution_s: 0,
      needs_rate: true,
    }),
    2,
  ],
  [
    'timestamp that counts rows',
    (draw) => ({
      kind: 'timestamp that counts rows',
      names: [draw.pick(['timestamp', 'time', 'Zeit'])],
      unit: '',
      preamble: [],
      cells: (_t, row) => [String(row + 1)],
      resolution_s: 0,
      needs_rate: true,
    }),
    2,
    800,
  ],
  [
    'no time at all',
    () => ({
      kind: 'no time at all',
      names: [],
      unit: '',
      preamble: [],
      cells: () => [],
      resolution_s: 0,
      needs_rate: true,
    }),
    2,
  ],
  [
    'packet stamps',
    (draw, language, rate) => {
      const size = draw.pick([4, 5, 8, 10, 16]);
      const unit = draw.pick(['ms', 's'] as const);
      return {
        kind: 'packet stamps',
        names: [`${name(draw, language)} [${unit}]`],
        unit: '',
        preamble: [],
        cells: (_t, row) => {
          const t = (Math.floor(row / size) * size) / rate;
          return [unit === 'ms' ? (t * 1000).toFixed(0) : t.toFixed(4)];
        },
        resolution_s: 1e-3 + 1 / rate,
      };
    },
    3,
  ],
  [
    'time since the row before',
    (draw, _language, rate) => {
      const [unit, factor, decimals] = draw.pick([
        ['ms', 1e3, 3],
        ['s', 1, 6],
        ['us', 1e6, 1],
      ] as const);
      return {
        kind: 'time since the row before',
        names: [
          draw.pick(['dt', 'delta_t', 'interval', 'Δt', 'delta time']) +
            draw.pick([` [${unit}]`, ` (${unit})`, `_${unit}`]),
        ],
        unit: '',
        preamble: [],
        cells: (_t, row) => [((row === 0 ? 0 : 1 / rate) * factor).toFixed(decimals)],
        // Half a last digit a row adds up over the rows, for every reader.
        resolution_s: 1e-3 + (6000 * 10 ** -decimals) / factor,
      };
    },
    2,
  ],
  [
    'full counter of 16 or 32 bits',
    (draw, language) => {
      const [bits, unit, seconds] = draw.pick([
        [16, 'ms', 1e-3],
        [32, 'us', 1e-6],
        [24, 'us', 1e-6],
      ] as const);
      const full = 2 ** bits;
      const offset = full - Math.floor(1.3 / seconds);
      return {
        kind: 'full counter of 16 or 32 bits',
        names: [`${name(draw, language)}_${unit}`],
        unit: '',
        preamble: [],
        cells: (t) => [String((offset + Math.round(t / seconds)) % full)],
        resolution_s: seconds,
      };
    },
    2,
  ],
  [
    'ticks of 32768 Hz, told',
    (draw) => ({
      kind: 'ticks of 32768 Hz, told',
      names: [draw.pick(['ticks', 'tick', 'clock ticks'])],
      unit: '',
      preamble: [draw.pick(['Tick frequency: 32768 Hz', '1 tick = 1/32768 s', '# 32768 ticks per second'])],
      cells: (t) => [String(Math.round(t * 32768))],
      resolution_s: 1 / 32768,
    }),
    2,
  ],
  [
    'ticks of 32768 Hz, not told',
    (draw) => ({
      kind: 'ticks of 32768 Hz, not told',
      names: [draw.pick(['ticks', 'SampleTimeFine', 'counter'])],
      unit: '',
      preamble: [],
      cells: (t) => [String(10_000 + Math.round(t * 32768))],
      resolution_s: 1 / 32768,
      needs_rate: true,
    }),
    2,
  ],
  [
    'sample time in units of 0.1 ms',
    (draw) => ({
      kind: 'sample time in units of 0.1 ms',
      names: [draw.pick(['SampleTimeFine', 'SampleTime', 'timestamp'])],
      unit: '',
      preamble: [],
      cells: (t) => [String(Math.round(t * 1e4) + 40_000)],
      resolution_s: 1e-4,
      needs_rate: true,
    }),
    2,
  ],
];
