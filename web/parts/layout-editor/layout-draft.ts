import type { ColumnDraft, LayoutDraft } from './draft.ts';
import type { ColumnReference, Layout } from '../../../shared/schemas/layout.ts';
import type { FileColumn, LayoutPreview } from '../../../shared/schemas/layout-preview.ts';
import { AXES, type Axis, type Role, roleOf } from './column-roles.ts';
import { accUnitOf, gyrUnitOf } from './scales.ts';
import { timeDraftOf } from './time-draft.ts';

const UNUSED: ColumnDraft = { role: 'none', sensor: 0, turned: false };

/** The draft that says the same as what a file was read as; where it was refused, as much as the columns' names tell. */
export function draftOf(preview: LayoutPreview): LayoutDraft {
  return preview.layout ? draftOfLayout(preview.layout) : draftOfNames(preview.columns);
}

/** A layout by column. */
export function draftOfLayout(layout: Layout): LayoutDraft {
  const columns: ColumnDraft[] = Array.from({ length: layout.column_count }, () => ({ ...UNUSED }));
  const at = (reference: ColumnReference) => columnAt(layout, reference);
  const give = (reference: ColumnReference, column: Partial<ColumnDraft>) => {
    const index = at(reference);
    if (columns[index]) columns[index] = { ...columns[index], ...column };
  };
  const byRows = layout.side_column !== null;
  const woven = layout.quantity_column !== undefined;
  const [first, second] = layout.sensors;
  const sensors = byRows || woven || !second ? [first] : [first, second];
  sensors.forEach((sensor, index) => {
    for (const kind of ['acc', 'gyr'] as const) {
      AXES.forEach((axis, k) => {
        const triple = sensor[kind];
        if (!triple) return;
        const shared = kind === 'gyr' && sensor.acc.columns[k] === triple.columns[k];
        const role = roleOf(shared ? 'both' : kind, axis);
        give(triple.columns[k], { role, sensor: index as 0 | 1, turned: triple.signs[k] < 0 });
        if (triple.plus) give(triple.plus[k], { role: roleOf('gravity', axis), sensor: index as 0 | 1 });
      });
    }
  });
  if (layout.quantity_column !== undefined) give(layout.quantity_column, { role: 'quantity' });
  if (layout.time.fraction) give(layout.time.fraction.column, { role: 'fraction' });
  if (layout.counter !== null) give(layout.counter, { role: 'counter' });
  if (layout.side_column !== null) give(layout.side_column, { role: 'side' });
  const [time, clock] = layout.time.columns;
  if (time !== undefined) give(time, { role: clock === undefined ? 'time' : 'date' });
  if (clock !== undefined) give(clock, { role: 'clock' });
  return {
    columns,
    arrangement: byRows ? 'rows' : second && !woven ? 'columns' : 'one',
    sides: [first.side, second?.side ?? 'unknown'],
    side_values: [first.side_value ?? '', second?.side_value ?? ''],
    acc: accUnitOf(first.acc),
    gyr: first.gyr ? gyrUnitOf(first.gyr) : { unit: 'deg/s', counts: '' },
    time: timeDraftOf(layout.time),
    base: layout,
  };
}

/** Position of a column of a layout. */
export function columnAt({ column_names }: Layout, reference: ColumnReference): number {
  if (typeof reference === 'number') return reference;
  return column_names.findIndex((name) => name.toLowerCase() === reference.toLowerCase());
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
      since_last: false,
    },
    base: null,
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

/** True while every column still has the role that it had at first. */
export function hasFirstRoles({ base, columns, arrangement }: LayoutDraft): boolean {
  if (!base) return false;
  const first = draftOfLayout(base);
  return (
    arrangement === first.arrangement &&
    columns.every(({ role, sensor }, at) => role === first.columns[at]?.role && sensor === first.columns[at].sensor)
  );
}

/** Where an axis of a sensor stands; -1 where no column has it. */
export function place(draft: LayoutDraft, kind: 'acc' | 'gyr', axis: Axis, sensor: 0 | 1): number {
  return draft.columns.findIndex((column) => column.role === roleOf(kind, axis) && column.sensor === sensor);
}
