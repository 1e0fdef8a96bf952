import type { AxisTriple, Layout } from '../../../shared/schemas/layout.ts';
import type { SensorPlan } from '../rows/assemble-sensor.ts';
import type { TimeHabits } from '../time/time-habits.ts';
import type { ColumnPlan } from '../rows/row-batch.ts';
import { columnIndex, type LayoutFound } from '../infer/infer-layout.ts';
import { learnTimeHabits } from './learn-time-habits.ts';
import { FaultError, fault } from '../../../shared/fault.ts';
import type { Side } from '../../../shared/words.ts';

/** Resolves a layout's references to positions, each channel once. */
export function planColumns(layout: Layout, file: string): ColumnPlan {
  const at = (reference: number | string) => columnIndex(reference, layout.column_names, layout.column_count, file);
  const channels: number[] = [];
  const need = (reference: number | string) => {
    const index = at(reference);
    if (!channels.includes(index)) channels.push(index);
  };
  for (const sensor of layout.sensors) {
    sensor.acc.columns.forEach(need);
    sensor.acc.plus?.forEach(need);
    sensor.gyr?.columns.forEach(need);
  }
  if (layout.counter !== null) need(layout.counter);
  const triples = layout.sensors.map(({ acc, gyr }) =>
    [acc, gyr].map((axes) => [...(axes?.columns ?? []), ...(axes?.plus ?? [])].map(at)),
  );
  const quantity_values: ColumnPlan['quantity_values'] = new Map();
  layout.sensors.forEach(({ acc_value, gyr_value, side_value }, sensor) => {
    const say = (value: string | undefined, which: 0 | 1) => {
      if (value === undefined || quantity_values.has(value)) return;
      quantity_values.set(value, {
        sensor: side_value === null ? sensor : null,
        quantity: which + 1,
        channels: channels.map((column) => triples[sensor][which].includes(column)),
      });
    };
    say(acc_value, 0);
    say(gyr_value, 1);
  });
  return {
    quantity_column: layout.quantity_column === undefined ? null : at(layout.quantity_column),
    quantity_values,
    rows_alternate: layout.rows_alternate === true,
    acc_channels: channels.map((column) => triples.some(([acc]) => acc.includes(column))),
    gyr_channels: channels.map((column) => triples.some(([, gyr]) => gyr.includes(column))),
    column_count: layout.column_count,
    names: layout.column_names,
    channels,
    time: layout.time.fraction
      ? { ...layout.time, fraction: { ...layout.time.fraction, column: at(layout.time.fraction.column) } }
      : layout.time,
    time_columns: layout.time.columns.map(at),
    side_column: layout.side_column === null ? null : at(layout.side_column),
    side_values: layout.sensors.map((sensor) => sensor.side_value),
    rows_of: layout.rows_of ? { column: at(layout.rows_of.column), values: layout.rows_of.values } : null,
    text: layout.text,
  };
}

/** One plan a sensor that is to be read. */
export function planSensors(
  found: LayoutFound,
  columns: ColumnPlan,
  options: { file_name: string; side?: Side; rate_hz?: number },
): SensorPlan[] {
  const { layout } = found;
  const at = (reference: number | string) =>
    columnIndex(reference, layout.column_names, layout.column_count, options.file_name);
  const position = (reference: number | string) => columns.channels.indexOf(at(reference));
  const byRow = layout.time.kind === 'rows';
  const rate = byRow ? (options.rate_hz ?? layout.time.rate_hz) : null;
  if (byRow && !rate) {
    throw new FaultError(fault('RATE_MISSING.no_time', { file: options.file_name }, { file: options.file_name }));
  }
  const plans = layout.sensors.map((sensor, index) => {
    const triple = (axes: AxisTriple) => axes.columns.map(position);
    const woven = sensor.gyr !== null && (columns.rows_alternate || sensor.gyr_value !== undefined);
    const alone = woven || sensor.acc_value !== undefined;
    const habits: TimeHabits = learnTimeHabits(found, columns, index, rate, alone ? 'acc' : null);
    return {
      index,
      side: layout.sensors.length === 1 && options.side && options.side !== 'unknown' ? options.side : sensor.side,
      channels: [...triple(sensor.acc), ...(sensor.gyr ? triple(sensor.gyr) : [])],
      plus: sensor.acc.plus ? sensor.acc.plus.map(position) : [],
      counter: layout.counter === null ? null : position(layout.counter),
      acc: sensor.acc,
      gyr: sensor.gyr,
      seconds_per_unit:
        layout.time.kind === 'number' || layout.time.kind === 'interval' ? layout.time.seconds_per_unit : 1,
      rate_hz: rate,
      epoch_s: layout.time.date_order !== null && layout.time.kind !== 'number' ? 0 : layout.time.epoch_s,
      habits,
      gyr_habits: woven ? learnTimeHabits(found, columns, index, rate, 'gyr') : null,
    };
  });
  if (plans.length < 2 || !options.side || options.side === 'unknown') return plans;
  const wanted = plans.filter((plan) => plan.side === options.side);
  return wanted.length > 0 ? wanted : plans;
}
