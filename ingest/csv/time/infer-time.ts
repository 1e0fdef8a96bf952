import type { TimeSituation } from './time-situation.ts';
import type { TimeColumns } from '../../../shared/schemas/layout.ts';
import type { Evidence } from '../columns/evidence.ts';
import { FaultError } from '../../../shared/fault.ts';
import type { HeadTable } from '../text/head-table.ts';
import { carriedStamps, intervalColumn, withFraction } from './infer-stamp-parts.ts';
import { refuseTwoClocks, textTime } from './infer-text-time.ts';
import { type LayoutChoice, LayoutQuestion } from '../columns/layout-question.ts';
import type { ColumnName } from '../columns/name-column.ts';
import { timeReader } from './time-cells.ts';

/** Rates at which people record movement. Wide, yet narrower than the factor of 1000 between two time units. */
const LOWEST_RATE_HZ = 8;
const HIGHEST_RATE_HZ = 8000;
const UNITS = [
  { unit: 's', seconds: 1 },
  { unit: 'ms', seconds: 1e-3 },
  { unit: 'us', seconds: 1e-6 },
  { unit: 'ns', seconds: 1e-9 },
];

const DAY_S = 86_400;
/** Spreadsheets count days from 30 December 1899. */
const SERIAL_DAY_ZERO_S = -25_569 * DAY_S;
const SERIAL_DAYS = [30_000, 70_000];

/**
 * Finds the time column and its unit, or settles on a given rate where there is none.
 * @throws LayoutQuestion when the column may be time or a row number; FaultError RATE_MISSING when nothing tells time
 */
export function inferTime(situation: TimeSituation): TimeColumns {
  const { head, names, told, evidence } = situation;
  const base: TimeColumns = {
    kind: 'rows',
    columns: [],
    seconds_per_unit: 1,
    epoch_s: null,
    date_order: null,
    rate_hz: null,
  };
  if (told?.time?.kind) {
    evidence.push({ about: 'time', decided: told.time.kind, because: 'from the layout', source: 'told' });
    const rate_hz = told.time.rate_hz ?? situation.rate_hz ?? situation.preamble.rate_hz;
    return { ...base, ...told.time, rate_hz };
  }
  refuseTwoClocks(situation);
  const fraction = (time: TimeColumns) =>
    withFraction(time, names, head, situation.rows, situation.decimal_mark, evidence);
  const written = textTime(situation, base);
  if (written) {
    const whole = fraction(written);
    if (goesOn(whole, situation)) return { ...whole, ...told?.time };
    evidence.push({
      about: 'time',
      decided: 'dates and clock times not used',
      because: 'they are the same in every row looked at',
      source: 'measured',
    });
  }
  for (const { index, kind } of names) {
    if (kind !== 'time' && kind !== null) continue;
    const first = head.numbers[index][0];
    const epoch_s = first > 5e8 && first < 4.2e9 ? 0 : null;
    const parted = fraction({ ...base, kind: 'number', columns: [index], epoch_s });
    if (parted.fraction) return { ...parted, ...told?.time };
  }
  const column = chooseNumericTime(situation);
  const interval = intervalColumn(names, head);
  if (interval && (!column || column.column.index === interval.index)) {
    return { ...intervalTime(interval, situation, base), ...told?.time };
  }
  if (column) return { ...numericTime(column, situation, base), ...told?.time };
  const rate = situation.rate_hz ?? told?.time?.rate_hz ?? situation.preamble.rate_hz;
  if (rate) {
    const source = situation.rate_hz || told?.time?.rate_hz ? 'told' : 'written';
    const because =
      source === 'told' ? 'rate given, no time column' : `"${situation.preamble.lines.rate_hz}", no time column`;
    evidence.push({ about: 'time', decided: `rows at ${rate} Hz`, because, source });
    return { ...base, rate_hz: rate };
  }
  const backward = names.find((name) => name.kind === 'time' && fallsThroughout(head.numbers[name.index]));
  if (backward) {
    throw new FaultError({
      code: 'RATE_MISSING',
      message: `${situation.file}: found a time that runs backward ("${backward.name}", from ${head.numbers[backward.index][0]} down); expected the earliest row first. The file was refused.`,
      where: { file: situation.file, column: backward.name },
      hint: 'Sort the rows by time, the earliest first.',
    });
  }
  throw new FaultError({
    code: 'RATE_MISSING',
    message: `${situation.file}: found no column of time (${
      names
        .map((name) => name.name)
        .filter((name) => name)
        .join(', ') || `${head.numbers.length} columns without names`
    }) and no sampling rate; one of them is needed. The file was refused.`,
    where: { file: situation.file },
    hint: 'Give the sampling rate, for example --rate 500hz.',
  });
}

function fallsThroughout(values: Float64Array): boolean {
  let falls = 0;
  for (let i = 1; i < values.length; i++) if (values[i] < values[i - 1]) falls++;
  return values.length > 3 && falls > 0.9 * values.length;
}

/** False where every stamp is the same, as where only minutes are written. */
function goesOn(time: TimeColumns, { head, rows, decimal_mark }: TimeSituation): boolean {
  const read = timeReader(time, time.columns as number[], decimal_mark);
  const stamps = new Set(
    (rows ?? Array.from(head.text.keys())).slice(0, head.text.length).map((row) => read(head.text[row] ?? [])),
  );
  return stamps.size > 1;
}

export interface TimeFacts {
  column: ColumnName;
  /** Mean interval of consecutive rows without the gaps, in the column's unit. */
  interval: number;
  /** Spread of the intervals against their mean. */
  jitter: number;
  first: number;
  whole: boolean;
  /** Every step is exactly one. */
  counts: boolean;
  /** Only a packet's first row carries a stamp. */
  carried?: boolean;
}

/** Facts of a column that grows; null where it does not. */
export function timeFacts(column: ColumnName, head: HeadTable, rows: number[] | null): TimeFacts | null {
  const all = head.numbers[column.index];
  const values = (rows ? rows.map((row) => all[row]) : [...all]).filter((value) => !Number.isNaN(value));
  if (values.length < 3 || values.length < 0.5 * (rows?.length ?? head.rows)) return null;
  const steps = values.slice(1).map((value, index) => value - values[index]);
  const forward = steps.filter((step) => step > 0).sort((a, b) => a - b);
  if (forward.length === 0 || steps.filter((step) => step < 0).length > 0.02 * steps.length + 2) return null;
  const typical = forward[forward.length >> 1];
  const near = steps.filter((step) => step >= 0 && step <= 5 * typical);
  const interval = near.reduce((sum, step) => sum + step, 0) / near.length;
  const spread = Math.sqrt(near.reduce((sum, step) => sum + (step - interval) ** 2, 0) / near.length);
  return {
    column,
    interval,
    jitter: spread / interval,
    first: values[0],
    whole: values.every((value) => value % 1 === 0),
    counts: near.filter((step) => step === 1).length > 0.98 * near.length,
  };
}

function chooseNumericTime(situation: TimeSituation): TimeFacts | null {
  const { names, head, rows, evidence } = situation;
  const usable = names
    .filter((name) => name.kind === 'time' || name.kind === null)
    .map((name) => timeFacts(name, head, rows) ?? carriedFacts(name, head));
  const growing = usable.filter((facts) => facts !== null);
  const byName = growing.filter((facts) => facts.column.kind === 'time');
  // Without a name, a column that grows all along is time or a count; sensors go up and down.
  const candidates = byName.length > 0 ? byName : growing;
  if (candidates.length === 0) return null;
  const arrival = (facts: TimeFacts) => (/host|phone|arriv|receiv|system|local|pc/i.test(facts.column.name) ? 1 : 0);
  candidates.sort((a, b) => arrival(a) - arrival(b) || (a.counts ? 1 : 0) - (b.counts ? 1 : 0) || a.jitter - b.jitter);
  const best = candidates[0];
  if (candidates.length > 1) {
    evidence.push({
      about: 'time',
      decided: `"${best.column.name}" of ${candidates.length} columns of time`,
      because: 'the steadiest, and not the time of arrival',
      source: 'measured',
    });
  }
  return best;
}

/** Facts of a column that only a packet's first row fills. */
function carriedFacts(name: ColumnName, head: HeadTable): TimeFacts | null {
  const stamps = name.kind === 'time' ? carriedStamps(name, head) : null;
  if (!stamps) return null;
  const numbers = head.numbers.map((column, index) => (index === name.index ? stamps : column));
  const facts = timeFacts(name, { ...head, numbers }, null);
  return facts && { ...facts, carried: true };
}

/** The time since the row before, in the unit that is written or the only one that gives a rate. */
function intervalTime(column: ColumnName, { head, file, evidence }: TimeSituation, base: TimeColumns): TimeColumns {
  const values = head.numbers[column.index].subarray(1).filter((value) => value > 0);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const fits = UNITS.filter(
    ({ seconds }) => 1 / (mean * seconds) >= LOWEST_RATE_HZ && 1 / (mean * seconds) <= HIGHEST_RATE_HZ,
  );
  const written = column.unit?.kind === 'time' ? column.unit.to_si : null;
  const chosen = fits.find(({ seconds }) => seconds === written) ?? (fits.length === 1 && !written ? fits[0] : null);
  const rateOf = (seconds: number) => `${(1 / (mean * seconds)).toPrecision(4)} Hz`;
  if (!chosen) {
    throw new LayoutQuestion(file, {
      about: 'time unit',
      found: `"${column.name}", the time since the row before, of ${mean.toPrecision(4)} on average`,
      choices: fits.map(({ unit, seconds }) => ({
        label: `${unit} (${rateOf(seconds)})`,
        correction: { time: { kind: 'interval', columns: [column.index], seconds_per_unit: seconds } },
      })),
    });
  }
  evidence.push({
    about: 'time',
    decided: `"${column.name}" summed up, in ${chosen.unit}`,
    because: `named as the time since the row before; gives ${rateOf(chosen.seconds)}`,
    source: 'written',
  });
  return { ...base, kind: 'interval', columns: [column.index], seconds_per_unit: chosen.seconds };
}

function numericTime(facts: TimeFacts, situation: TimeSituation, base: TimeColumns): TimeColumns {
  const { file, preamble, evidence } = situation;
  const { column, interval } = facts;
  const label = column.name ? `"${column.name}"` : `column ${column.index + 1}`;
  const made = (seconds: number, decided: string, because: string, source: Evidence['source']): TimeColumns => {
    const first = facts.first * seconds;
    const epoch_s = seconds === DAY_S ? SERIAL_DAY_ZERO_S : first > 5e8 && first < 4.2e9 ? 0 : null;
    evidence.push({ about: 'time', decided: `${label} in ${decided}`, because, source });
    const carried = facts.carried ? { carried: true } : {};
    return { ...base, kind: 'number', columns: [column.index], seconds_per_unit: seconds, epoch_s, ...carried };
  };
  const given = situation.rate_hz ?? situation.told?.time?.rate_hz ?? preamble.rate_hz;
  if (situation.told?.time?.seconds_per_unit)
    return made(situation.told.time.seconds_per_unit, 'units of the layout', 'from the layout', 'told');
  const serial =
    facts.first > SERIAL_DAYS[0] && facts.first < SERIAL_DAYS[1] && !facts.whole
      ? [{ unit: 'days of a spreadsheet', seconds: DAY_S }]
      : [];
  const plausible = [...UNITS, ...serial].filter(({ seconds }) => {
    const rate = 1 / (interval * seconds);
    return rate >= LOWEST_RATE_HZ && rate <= HIGHEST_RATE_HZ;
  });
  const rateOf = (seconds: number) => `${(1 / (interval * seconds)).toPrecision(4)} Hz`;
  if (column.unit?.kind === 'time') {
    if (plausible.some(({ seconds }) => seconds === column.unit!.to_si) || plausible.length === 0) {
      return made(column.unit.to_si, column.unit.unit, `written; gives ${rateOf(column.unit.to_si)}`, 'written');
    }
    throw new LayoutQuestion(file, {
      about: 'time unit',
      found: `${label} written in ${column.unit.unit}, in which its step of ${interval.toPrecision(4)} would be ${rateOf(column.unit.to_si)}`,
      choices: [...plausible, { unit: column.unit.unit, seconds: column.unit.to_si }].map(({ unit, seconds }) => ({
        label: `${unit} (${rateOf(seconds)})`,
        correction: { time: { seconds_per_unit: seconds } },
      })),
    });
  }
  const isTicks = column.unit?.unit === 'ticks' || /tick|clk/i.test(column.name);
  if (preamble.ticks_per_s && (isTicks || plausible.length === 0)) {
    return made(
      1 / preamble.ticks_per_s,
      `ticks of 1/${preamble.ticks_per_s} s`,
      `"${preamble.lines.ticks_per_s}"`,
      'written',
    );
  }
  if (given) {
    const agrees = plausible.find(({ seconds }) => Math.abs(1 / (interval * seconds) / given - 1) < 0.1);
    if (agrees && !isTicks)
      return made(
        agrees.seconds,
        agrees.unit,
        `its step gives ${rateOf(agrees.seconds)}, as stated (${given} Hz)`,
        'measured',
      );
    const source = situation.rate_hz || situation.told?.time?.rate_hz ? 'told' : 'written';
    return made(
      1 / (interval * given),
      facts.counts ? 'rows' : 'ticks',
      `a step of ${interval.toPrecision(5)} at the stated ${given} Hz`,
      source,
    );
  }
  if (plausible.length === 1 && !facts.counts && !isTicks) {
    return made(
      plausible[0].seconds,
      plausible[0].unit,
      `its step of ${interval.toPrecision(4)} gives ${rateOf(plausible[0].seconds)}; no other unit gives a rate from ${LOWEST_RATE_HZ} to ${HIGHEST_RATE_HZ} Hz`,
      'measured',
    );
  }
  const choices: LayoutChoice[] = plausible.map(({ unit, seconds }) => ({
    label: `${unit} (${rateOf(seconds)})`,
    correction: { time: { seconds_per_unit: seconds } },
  }));
  choices.push({
    label: facts.counts
      ? 'the number of the row, at a rate you give (here 500 Hz)'
      : 'ticks, at a rate you give (here 500 Hz)',
    correction: { time: { rate_hz: 500 } },
  });
  throw new LayoutQuestion(file, {
    about: 'time unit',
    found: `${label}, which grows by ${interval.toPrecision(5)} a row and has no unit`,
    choices,
  });
}
