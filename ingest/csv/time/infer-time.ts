import { FaultError, fault } from '../../../shared/fault.ts';
import { because } from '../../../shared/reason.ts';
import type { TimeColumns } from '../../../shared/schemas/layout.ts';
import { LayoutQuestion } from '../columns/layout-question.ts';
import type { ColumnName } from '../columns/name-column.ts';
import { significant } from '../columns/significant.ts';
import { toldColumn } from '../columns/told-columns.ts';
import type { HeadTable } from '../text/head-table.ts';
import { carriedStamps, intervalColumn, withFraction } from './infer-stamp-parts.ts';
import { refuseTwoClocks, textTime } from './infer-text-time.ts';
import { numericTime } from './numeric-time.ts';
import { timeReader } from './time-cells.ts';
import { type TimeFacts, timeFacts } from './time-facts.ts';
import type { TimeSituation } from './time-situation.ts';
import { isPlausibleRate, UNITS } from './time-units.ts';

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
    const decided = because('took_time_kind', { kind: told.time.kind });
    evidence.push({ about: 'time', decided, because: because('by_layout'), source: 'told' });
    const rate_hz = told.time.rate_hz ?? situation.rate_hz ?? situation.preamble.rate_hz;
    return { ...base, ...told.time, rate_hz };
  }
  refuseTwoClocks(situation);
  const fraction = (time: TimeColumns) =>
    withFraction(time, names, head, situation.rows, situation.decimal_mark, evidence);
  const written = textTime(situation, base);
  // When rows arrived tells less than the sensor's own clock beside it.
  const own = written && arrivalOnly(written, names) ? chooseNumericTime({ ...situation, evidence: [] }) : null;
  if (written && own?.column.kind !== 'time') {
    const whole = fraction(written);
    if (goesOn(whole, situation)) return { ...whole, ...told?.time };
    evidence.push({
      about: 'time',
      decided: because('took_no_stamps'),
      because: because('by_same_stamps'),
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
    const line = situation.preamble.lines.rate_hz ?? '';
    const why = source === 'told' ? because('by_rate_given') : because('by_rate_line', { line });
    evidence.push({ about: 'time', decided: because('took_rate', { hz: rate }), because: why, source });
    return { ...base, rate_hz: rate };
  }
  const backward = names.find((name) => name.kind === 'time' && fallsThroughout(head.numbers[name.index]));
  if (backward) {
    throw new FaultError(
      fault(
        'RATE_MISSING.backward',
        { file: situation.file, column: backward.name, from: head.numbers[backward.index][0] },
        { file: situation.file, column: backward.name },
      ),
    );
  }
  const unused = names.find(({ kind, index }) => kind === 'time' && (head.text[0]?.[index] ?? '') !== '');
  if (unused) {
    const cells = head.text.map((row) => row[unused.index] ?? '');
    const values = { file: situation.file, column: unused.name, first: cells[0], last: cells[cells.length - 1] };
    throw new FaultError(fault('RATE_MISSING.no_use', values, { file: situation.file, column: unused.name }));
  }
  throw new FaultError(
    fault(
      'RATE_MISSING.no_column',
      {
        file: situation.file,
        columns:
          names
            .map((name) => name.name)
            .filter((name) => name)
            .join(', ') || `${head.numbers.length} columns without names`,
      },
      { file: situation.file },
    ),
  );
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

/** Where sensors take turns, a number that grows by one from row to row of the file grows by more on a sensor's own rows: it is no clock. */
function countsTheFile({ column }: TimeFacts, head: HeadTable, rows: number[] | null): boolean {
  return rows !== null && timeFacts(column, head, null)?.counts === true;
}

const ARRIVAL = /host|phone|arriv|receiv|system|local|pc/i;

function arrivalOnly({ columns }: TimeColumns, names: ColumnName[]): boolean {
  return (columns as number[]).every((column) => ARRIVAL.test(names[column].name));
}

/** Of a column without a word for time, at least this share of the rows must rise. */
const RISES = 0.9;

function chooseNumericTime(situation: TimeSituation): TimeFacts | null {
  const { names, head, rows, evidence } = situation;
  const usable = names
    .filter(({ kind }) => kind === 'time' || kind === 'date' || kind === null || kind === 'counter')
    .map((name) => timeFacts(name, head, rows) ?? carriedFacts(name, head))
    // A counter that grows by more than one a row counts ticks of a clock, not rows.
    .filter((facts) => facts?.column.kind !== 'counter' || (facts.interval > 1.5 && facts.rises > RISES));
  // Pressure and temperature may rise all along, too: without a word for time, every row must.
  const growing = usable
    .filter((facts) => facts !== null)
    .filter((facts) => facts.column.kind === 'time' || (facts.rises > RISES && !countsTheFile(facts, head, rows)));
  const byName = growing.filter((facts) => facts.column.kind === 'time');
  // Without a name, a column that grows all along is time or a count; sensors go up and down.
  const candidates = byName.length > 0 ? byName : growing;
  if (candidates.length === 0) return null;
  const arrival = (facts: TimeFacts) => (ARRIVAL.test(facts.column.name) ? 1 : 0);
  candidates.sort((a, b) => arrival(a) - arrival(b) || (a.counts ? 1 : 0) - (b.counts ? 1 : 0) || a.jitter - b.jitter);
  const best = candidates[0];
  if (candidates.length > 1) {
    evidence.push({
      about: 'time',
      decided: because('took_time_of', { column: toldColumn(best.column), of: candidates.length }),
      because: because('by_steadiest'),
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
function intervalTime(
  column: ColumnName,
  { head, rows, file, evidence }: TimeSituation,
  base: TimeColumns,
): TimeColumns {
  const values = head.numbers[column.index].subarray(1).filter((value) => value > 0);
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const fits = UNITS.filter(({ seconds }) => isPlausibleRate(1 / (mean * seconds)));
  const written = column.unit?.kind === 'time' ? column.unit.to_si : null;
  const chosen = fits.find(({ seconds }) => seconds === written) ?? (fits.length === 1 && !written ? fits[0] : null);
  const hzOf = (seconds: number) => significant(1 / (mean * seconds), 4);
  if (!chosen) {
    throw new LayoutQuestion(file, {
      about: 'time unit',
      found: because('found_interval', { name: column.name, mean: significant(mean, 4) }),
      choices: fits.map(({ unit, seconds }) => ({
        label: because('choice_rate', { unit, hz: hzOf(seconds) }),
        correction: { time: { kind: 'interval', columns: [column.index], seconds_per_unit: seconds } },
      })),
    });
  }
  if (rows && rows.length > 0) throw whoseInterval(column, 1 / (mean * chosen.seconds), head.rows / rows.length, file);
  evidence.push({
    about: 'time',
    decided: because('took_summed', { column: toldColumn(column), unit: chosen.unit }),
    because: because('by_interval_name', { hz: hzOf(chosen.seconds) }),
    source: 'written',
  });
  return { ...base, kind: 'interval', columns: [column.index], seconds_per_unit: chosen.seconds };
}

/** Where sensors take turns, 'since the row before' may mean the file's row or the sensor's own. */
function whoseInterval(column: ColumnName, rate_hz: number, sensors: number, file: string): LayoutQuestion {
  const rates = [rate_hz, rate_hz / sensors].map((rate) => significant(rate, 6));
  return new LayoutQuestion(file, {
    about: 'time',
    found: because('found_interval_in_turn', { name: column.name, sensors: Math.round(sensors) }),
    choices: rates.map((rate) => ({
      label: because('choice_each_at', { hz: significant(rate, 4) }),
      correction: { time: { kind: 'rows', columns: [], rate_hz: rate } },
    })),
  });
}
