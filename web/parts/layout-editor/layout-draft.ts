import type {
  AxisTriple,
  ColumnReference,
  Layout,
  LayoutCorrection,
  TextShape,
} from '../../../shared/schemas/layout.ts';
import type { FileColumn, LayoutPreview } from '../../../shared/schemas/layout-preview.ts';
import type { Side } from '../../../shared/words.ts';
import { AXES, type Axis, type Role, roleOf } from './column-roles.ts';
import { accScale, accUnitOf, gyrScale, gyrUnitOf, type ScaleDraft } from './scales.ts';
import { type TimeDraft, timeColumns, timeDraftOf } from './time-draft.ts';

/** What one column is taken for. */
export interface ColumnDraft {
  role: Role;
  /** Which sensor an axis belongs to, where the file holds two side by side. */
  sensor: 0 | 1;
  /** An axis whose sign is turned. */
  turned: boolean;
}

/** One sensor; two in columns of their own; or two by turns, told apart by a column. */
export type Arrangement = 'one' | 'columns' | 'rows';

/** A layout as a person edits it: by column. */
export interface LayoutDraft {
  columns: ColumnDraft[];
  arrangement: Arrangement;
  sides: [Side, Side];
  /** What the side column holds for each sensor. */
  side_values: [string, string];
  acc: ScaleDraft;
  gyr: ScaleDraft;
  time: TimeDraft;
}

const UNUSED: ColumnDraft = { role: 'none', sensor: 0, turned: false };

/** The draft that says the same as what a file was read as; where it was refused, as much as the columns' names tell. */
export function draftOf(preview: LayoutPreview): LayoutDraft {
  return preview.layout ? draftOfLayout(preview.layout) : draftOfNames(preview.columns);
}

/** A layout by column. */
export function draftOfLayout(layout: Layout): LayoutDraft {
  const columns: ColumnDraft[] = Array.from({ length: layout.column_count }, () => ({ ...UNUSED }));
  const at = (reference: ColumnReference) =>
    typeof reference === 'number'
      ? reference
      : layout.column_names.findIndex((name) => name.toLowerCase() === reference.toLowerCase());
  const give = (reference: ColumnReference, column: Partial<ColumnDraft>) => {
    const index = at(reference);
    if (columns[index]) columns[index] = { ...columns[index], ...column };
  };
  const byRows = layout.side_column !== null;
  const [first, second] = layout.sensors;
  const sensors = byRows || !second ? [first] : [first, second];
  sensors.forEach((sensor, index) => {
    for (const kind of ['acc', 'gyr'] as const) {
      AXES.forEach((axis, k) => {
        const triple = sensor[kind];
        if (!triple) return;
        give(triple.columns[k], { role: roleOf(kind, axis), sensor: index as 0 | 1, turned: triple.signs[k] < 0 });
      });
    }
  });
  if (layout.counter !== null) give(layout.counter, { role: 'counter' });
  if (layout.side_column !== null) give(layout.side_column, { role: 'side' });
  const [time, clock] = layout.time.columns;
  if (time !== undefined) give(time, { role: clock === undefined ? 'time' : 'date' });
  if (clock !== undefined) give(clock, { role: 'clock' });
  return {
    columns,
    arrangement: byRows ? 'rows' : second ? 'columns' : 'one',
    sides: [first.side, second?.side ?? 'unknown'],
    side_values: [first.side_value ?? '', second?.side_value ?? ''],
    acc: accUnitOf(first.acc),
    gyr: first.gyr ? gyrUnitOf(first.gyr) : { unit: 'deg/s', counts: '' },
    time: timeDraftOf(layout.time),
  };
}

function draftOfNames(columns: FileColumn[]): LayoutDraft {
  const taken = new Set<string>();
  const sided = new Set(columns.map(({ side }) => side)).size > 2;
  const guess = (column: FileColumn): ColumnDraft => {
    const sensor = sided && column.side === 'right' ? 1 : 0;
    const role = roleByName(column);
    const key = `${role} ${sensor}`;
    if (role === 'none' || taken.has(key)) return { ...UNUSED };
    taken.add(key);
    return { role, sensor, turned: column.sign < 0 };
  };
  const drafts = columns.map(guess);
  const hasTime = drafts.some(({ role }) => role === 'time');
  const unit = (kind: string) => columns.find((column) => column.kind === kind && column.unit !== '')?.unit;
  return {
    columns: drafts,
    arrangement: sided ? 'columns' : 'one',
    sides: sided ? ['left', 'right'] : ['unknown', 'unknown'],
    side_values: ['', ''],
    acc: { unit: unit('acc') ?? 'g', counts: '' },
    gyr: { unit: unit('gyr') ?? 'deg/s', counts: '' },
    time: {
      unit: hasTime ? (unit('time') ?? 's') : 'rows',
      ticks_per_s: '',
      rate_hz: '',
      date_order: '',
      epoch_s: null,
    },
  };
}

function roleByName({ kind, axis }: FileColumn): Role {
  if ((kind === 'acc' || kind === 'gyr') && axis) return roleOf(kind, axis);
  return kind === 'time' || kind === 'counter' ? kind : 'none';
}

/** Gives a column another role; a column that had it takes over the old one, so that two axes are swapped in one go. */
export function withRole(draft: LayoutDraft, index: number, role: Role, sensor: 0 | 1): LayoutDraft {
  const old = draft.columns[index];
  const columns = draft.columns.map((column, other) => {
    if (other === index) return { ...column, role, sensor };
    const had = role !== 'none' && column.role === role && (column.sensor === sensor || !isAxis(role));
    return had ? { ...column, role: old.role, sensor: old.sensor } : column;
  });
  return { ...draft, columns };
}

function isAxis(role: Role): boolean {
  return role.startsWith('acc') || role.startsWith('gyr');
}

/** What is still to be said before a file can be read so, in words; empty when nothing is. */
export function missingOf(draft: LayoutDraft): string {
  const two = draft.arrangement === 'columns';
  for (const sensor of two ? ([0, 1] as const) : ([0] as const)) {
    const whose = two ? ` of the ${sensor === 0 ? 'left' : 'right'} sensor` : '';
    const lacks = (kind: 'acc' | 'gyr') => AXES.filter((axis) => place(draft, kind, axis, sensor) < 0);
    const acc = lacks('acc');
    if (acc.length > 0) return `Say which column holds acceleration ${acc.join(', ')}${whose}.`;
    const gyr = lacks('gyr');
    if (gyr.length > 0 && gyr.length < 3) return `Say which column holds rotation ${gyr.join(', ')}${whose}, or none.`;
  }
  if (draft.arrangement === 'rows') {
    if (!draft.columns.some(({ role }) => role === 'side')) return 'Say which column tells the foot of a row.';
    if (draft.side_values.some((value) => value === '')) return 'Say what that column holds for left and for right.';
  }
  if (accScale(draft.acc) === null) return 'Say how many counts are 1 g.';
  if (gyrScale(draft.gyr) === null) return 'Say how many counts are 1 deg/s.';
  return timeColumns(draft).missing;
}

/**
 * What to pass to the reader.
 * @param text how lines and cells are parted, as far as that was told
 */
export function correctionOf(draft: LayoutDraft, text: Partial<TextShape>): LayoutCorrection {
  const index = (role: Role) => {
    const found = draft.columns.findIndex((column) => column.role === role);
    return found < 0 ? null : found;
  };
  const triple = (kind: 'acc' | 'gyr', sensor: 0 | 1): AxisTriple | null => {
    const columns = AXES.map((axis) => place(draft, kind, axis, sensor));
    if (columns.some((column) => column < 0)) return null;
    return {
      columns: columns as [number, number, number],
      signs: columns.map((column) => (draft.columns[column].turned ? -1 : 1)) as [number, number, number],
      unit: draft[kind].unit,
      to_si: (kind === 'acc' ? accScale(draft.acc) : gyrScale(draft.gyr)) ?? 1,
    };
  };
  const sensor = (which: 0 | 1) => ({
    side: draft.sides[which],
    side_value: draft.arrangement === 'rows' ? draft.side_values[which] : null,
    acc: triple('acc', draft.arrangement === 'columns' ? which : 0)!,
    gyr: triple('gyr', draft.arrangement === 'columns' ? which : 0),
  });
  return {
    ...(Object.keys(text).length > 0 ? { text } : {}),
    time: timeColumns(draft).time,
    counter: index('counter'),
    side_column: draft.arrangement === 'rows' ? index('side') : null,
    sensors: draft.arrangement === 'one' ? [sensor(0)] : [sensor(0), sensor(1)],
  };
}

function place(draft: LayoutDraft, kind: 'acc' | 'gyr', axis: Axis, sensor: 0 | 1): number {
  return draft.columns.findIndex((column) => column.role === roleOf(kind, axis) && column.sensor === sensor);
}
