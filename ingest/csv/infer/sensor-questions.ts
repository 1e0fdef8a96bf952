import { FaultError, fault } from '../../../shared/fault.ts';
import { because, type CodedReason } from '../../../shared/reason.ts';
import type { Side } from '../../../shared/words.ts';
import { type LayoutChoice, LayoutQuestion } from '../columns/layout-question.ts';
import type { Axis, ColumnName } from '../columns/name-column.ts';
import { toldColumns } from '../columns/told-columns.ts';
import type { SensorFound, Triple } from './sensor-found.ts';

const AXES: Axis[] = ['x', 'y', 'z'];

/** Columns of one quantity and one sensor; `triple` is null where an axis is missing. */
export interface Group {
  /** As the names have it; `told_side` is what a layout says instead. */
  side: Side;
  told_side?: Side;
  group: string;
  triple: Triple | null;
  found: ColumnName[];
  plus?: Triple;
}

/** Rates named alpha, beta and gamma, as browsers do: makers disagree about which axis is which, and the wrong one spoils every angle. */
export function askForAngles(names: ColumnName[], file: string): void {
  const named = ['alpha', 'beta', 'gamma'].map((word) =>
    names.find(({ kind, name }) => kind === 'gyr' && new RegExp(`(^|[^a-z])${word}([^a-z]|$)`, 'i').test(name)),
  );
  if (named.some((column) => column === undefined)) return;
  const [alpha, beta, gamma] = named.map((column) => column!.name);
  throw new LayoutQuestion(file, {
    about: 'gyroscope',
    found: because('found_angles_named', { names: [alpha, beta, gamma] }),
    choices: [
      { label: because('choice_angles', { axes: ['z', 'x', 'y'] }), correction: { gyr_columns: [beta, gamma, alpha] } },
      { label: because('choice_angles', { axes: ['x', 'y', 'z'] }), correction: { gyr_columns: [alpha, beta, gamma] } },
    ],
  });
}

/** Names such as ax1, ay1, az1, ax2, ...: a packet's samples side by side. */
const NUMBERED_SAMPLE = /^(?:a|acc|accel)[ _]?([xyz])[ _]?(\d{1,3})$/i;

export function missing(names: ColumnName[], accs: Group[], file: string): FaultError {
  const samples = new Set(names.map(({ name }) => NUMBERED_SAMPLE.exec(name.trim())?.[2]).filter((text) => text));
  if (accs.length === 0 && samples.size > 1) {
    return new FaultError(
      fault(
        'SEVERAL_SAMPLES_A_ROW',
        { file, samples: samples.size, column: names.find(({ name }) => NUMBERED_SAMPLE.test(name.trim()))!.name },
        { file, samples_a_row: samples.size },
      ),
    );
  }
  const found = names.map((name) => name.name).filter((name) => name !== '');
  const partial = accs[0]?.found.map((name) => `"${name.name}"`).join(', ');
  const lacking = accs[0] ? AXES.filter((axis) => !accs[0].found.some((name) => name.axis === axis)).join(', ') : '';
  return new FaultError(
    partial
      ? fault('COLUMN_MISSING.axis', { file, partial, lacking }, { file, column: `acceleration ${lacking}` })
      : fault(
          'COLUMN_MISSING.acceleration',
          { file, columns: found.slice(0, 12).join(', '), more: found.length > 12 },
          { file, column: 'acceleration' },
        ),
  );
}

export function withoutGravity(triple: Triple, file: string): FaultError {
  return new FaultError(
    fault('ACCELERATION_WITHOUT_GRAVITY', { file, column: triple[0].name }, { file, column: triple[0].name }),
  );
}

/** A question that has no answers to choose from gives way to one that has. */
export function orAsk(find: () => SensorFound[], ask: () => FaultError): SensorFound[] {
  try {
    return find();
  } catch (error) {
    throw error instanceof LayoutQuestion && error.choices.length === 0 ? ask() : error;
  }
}

/** Columns that may be the acceleration, of names that nobody here knows: the user does. */
export function whichAcceleration(triples: Triple[], file: string): LayoutQuestion {
  return new LayoutQuestion(file, {
    about: 'acceleration',
    found: because('found_unknown_accelerations', { triples: triples.map(toldColumns) }),
    choices: triples.map((triple) => ({
      label: because('choice_acceleration', { columns: toldColumns(triple) }),
      correction: { acc_columns: triple.map(({ index }) => index) as AccColumns },
    })),
  });
}

/** More sets of angular rate than belong to a sensor. */
export function whichRates(acc: Triple, rates: Triple[], file: string): LayoutQuestion {
  return new LayoutQuestion(file, {
    about: 'gyroscope',
    found: because('found_several_rates', { acc: toldColumns(acc), rates: rates.map(toldColumns) }),
    choices: [
      ...rates.map((triple) => ({
        label: because('choice_rates', { columns: toldColumns(triple) }),
        correction: { gyr_columns: triple.map(({ index }) => index) as AccColumns },
      })),
      { label: because('choice_no_rates'), correction: { gyr_columns: null } },
    ],
  });
}

/** Angular rate by its name, in a unit that is none of it. */
export function ratesInOtherUnit(acc: Triple, rates: Triple, file: string): LayoutQuestion {
  return new LayoutQuestion(file, {
    about: 'gyroscope',
    found: because('found_rates_in_other_unit', { acc: toldColumns(acc), rates: toldColumns(rates) }),
    choices: [
      {
        label: because('choice_rates', { columns: toldColumns(rates) }),
        correction: { gyr_columns: rates.map(({ index }) => index) as AccColumns },
      },
      { label: because('choice_no_rates'), correction: { gyr_columns: null } },
    ],
  });
}

type AccColumns = [number | string, number | string, number | string];

/** Two sensors may be the two feet, in one order or the other. */
export function bothFeet([first, second]: CodedReason[]): LayoutChoice[] {
  return [
    { label: because('choice_feet', { left: first, right: second }), correction: { sensor_sides: ['left', 'right'] } },
    { label: because('choice_feet', { left: second, right: first }), correction: { sensor_sides: ['right', 'left'] } },
  ];
}

/** Of many segments those of which there is a left and a right one, each pair as a choice: the feet, the shanks, ... */
function pairsOfSegments(groups: Group[], label: (group: Group) => CodedReason): LayoutChoice[] {
  const inOrder = [...groups].sort((a, b) => a.triple![0].index - b.triple![0].index);
  const segments = new Set(inOrder.map(({ group }) => group));
  return [...segments].flatMap((segment) => {
    const [lefts, rights] = (['left', 'right'] as const).map((side) =>
      inOrder.filter((group) => group.group === segment && group.side === side),
    );
    if (lefts.length !== 1 || rights.length !== 1) return [];
    const [left, right] = [lefts[0], rights[0]];
    return [
      {
        label: because('choice_feet', { left: label(left), right: label(right) }),
        correction: {
          sensor_sides: inOrder.map((group) => (group === left ? 'left' : group === right ? 'right' : 'unknown')),
        },
      },
    ];
  });
}

export function severalSensors(groups: Group[], file: string): LayoutQuestion {
  const twice = new Set(groups.map(({ triple }) => triple![0].name)).size < groups.length;
  const label = ({ triple }: Group) =>
    twice
      ? because('sensor_columns', { columns: triple!.map(({ index }) => index + 1) })
      : because('sensor_named', { name: triple![0].name });
  return new LayoutQuestion(file, {
    about: 'sensor',
    found: because('found_several_sensors', { names: groups.map((group) => group.triple![0].name) }),
    choices: [
      ...(groups.length === 2 ? bothFeet(groups.map(label)) : pairsOfSegments(groups, label)),
      ...groups.map((group) => ({
        label: because('choice_alone', { sensor: label(group) }),
        correction: { acc_columns: group.triple!.map((c) => (twice ? c.index : c.name)) as AccColumns },
      })),
    ],
    ...(groups.length === 2 ? { hint: because('do_sensor_sides') } : {}),
  });
}
