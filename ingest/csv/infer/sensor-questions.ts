import { FaultError, fault } from '../../../shared/fault.ts';
import type { Side } from '../../../shared/words.ts';
import { type LayoutChoice, LayoutQuestion } from '../columns/layout-question.ts';
import type { Axis, ColumnName } from '../columns/name-column.ts';
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
    found: `angular rates named "${alpha}", "${beta}" and "${gamma}", which makers put about different axes`,
    choices: [
      { label: 'alpha about z, beta about x, gamma about y', correction: { gyr_columns: [beta, gamma, alpha] } },
      { label: 'alpha about x, beta about y, gamma about z', correction: { gyr_columns: [alpha, beta, gamma] } },
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
export function orAsk(find: () => SensorFound[], ask: () => LayoutQuestion): SensorFound[] {
  try {
    return find();
  } catch (error) {
    throw error instanceof LayoutQuestion && error.choices.length === 0 ? ask() : error;
  }
}

/** Columns that may be the acceleration, of names that nobody here knows: the user does. */
export function whichAcceleration(triples: Triple[], file: string): LayoutQuestion {
  const label = (triple: Triple) => triple.map(({ name, index }) => `"${name || `column ${index + 1}`}"`).join(', ');
  return new LayoutQuestion(file, {
    about: 'acceleration',
    found: `columns whose names are not known and of which no three alone have a norm of 1 g at rest: ${triples.map(label).join('; ')}`,
    choices: triples.map((triple) => ({
      label: `${label(triple)} the acceleration`,
      correction: { acc_columns: triple.map(({ index }) => index) as AccColumns },
    })),
  });
}

/** More sets of angular rate than belong to a sensor. */
export function whichRates(acc: Triple, rates: Triple[], file: string): LayoutQuestion {
  const label = (triple: Triple) => triple.map(({ name, index }) => `"${name || `column ${index + 1}`}"`).join(', ');
  return new LayoutQuestion(file, {
    about: 'gyroscope',
    found: `acceleration (${label(acc)}) and ${rates.length} sets of angular rate: ${rates.map(label).join('; ')}`,
    choices: [
      ...rates.map((triple) => ({
        label: `${label(triple)} the angular rate`,
        correction: { gyr_columns: triple.map(({ index }) => index) as AccColumns },
      })),
      { label: 'no angular rate in this file', correction: { gyr_columns: null } },
    ],
  });
}

type AccColumns = [number | string, number | string, number | string];

/** Two sensors may be the two feet, in one order or the other. */
export function bothFeet([first, second]: string[]): LayoutChoice[] {
  return [
    { label: `${first} left and ${second} right`, correction: { sensor_sides: ['left', 'right'] } },
    { label: `${second} left and ${first} right`, correction: { sensor_sides: ['right', 'left'] } },
  ];
}

export function severalSensors(groups: Group[], file: string): LayoutQuestion {
  const twice = new Set(groups.map(({ triple }) => triple![0].name)).size < groups.length;
  const label = ({ triple }: Group) =>
    twice ? `columns ${triple!.map(({ index }) => index + 1).join(', ')}` : `"${triple![0].name}"`;
  return new LayoutQuestion(file, {
    about: 'sensor',
    found: `${groups.length} sensors or versions of the acceleration in one file (${groups.map((group) => `"${group.triple![0].name}"`).join(', ')})`,
    choices: [
      ...(groups.length === 2 ? bothFeet(groups.map(label)) : []),
      ...groups.map((group) => ({
        label: `${label(group)} alone`,
        correction: { acc_columns: group.triple!.map((c) => (twice ? c.index : c.name)) as AccColumns },
      })),
    ],
    ...(groups.length === 2
      ? {
          hint: 'Say which in a layout file (--layout), such as {"sensor_sides":["left","right"]} in the order of the columns.',
        }
      : {}),
  });
}
