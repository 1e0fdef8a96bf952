import type { AxisTriple, Layout, LayoutCorrection, SensorColumns, TextShape } from '../../../shared/schemas/layout.ts';
import { AXES, type Role } from './column-roles.ts';
import { columnAt, draftOfLayout, hasFirstRoles, place } from './layout-draft.ts';
import type { LayoutDraft } from './draft.ts';
import { accScale, gyrScale } from './scales.ts';
import { timeColumns, timeDraftOf } from './time-draft.ts';

/**
 * What to pass to the reader.
 * @param text how lines and cells are parted, as far as that was told
 */
export function correctionOf(draft: LayoutDraft, text: Partial<TextShape>): LayoutCorrection {
  const index = (role: Role) => {
    const found = draft.columns.findIndex((column) => column.role === role);
    return found < 0 ? null : found;
  };
  const { base } = draft;
  const kept = base && hasFirstRoles(draft) ? base : null;
  return {
    ...(Object.keys(text).length > 0 ? { text } : {}),
    time: kept && sameTime(draft) ? kept.time : timeColumns(draft).time,
    counter: index('counter'),
    side_column: draft.arrangement === 'rows' ? index('side') : null,
    ...(kept?.quantity_column === undefined ? {} : { quantity_column: kept.quantity_column }),
    // Which rows are read is no matter of columns' roles: it stays whatever they become.
    ...(base?.rows_of === undefined ? {} : { rows_of: base.rows_of }),
    ...(kept?.rows_alternate === undefined ? {} : { rows_alternate: kept.rows_alternate }),
    sensors: kept ? changedSensors(draft, kept) : sensorsByRole(draft),
  };
}

function sameTime({ base, time }: LayoutDraft): boolean {
  return base !== null && JSON.stringify(timeDraftOf(base.time)) === JSON.stringify(time);
}

/** Sensors of columns as they were, with the signs, units and sides of the draft. */
function changedSensors(draft: LayoutDraft, { sensors }: Layout): SensorColumns[] {
  const before = draftOfLayout(draft.base!);
  const changed = (triple: AxisTriple, kind: 'acc' | 'gyr'): AxisTriple => {
    const sameUnit = JSON.stringify(before[kind]) === JSON.stringify(draft[kind]);
    const turned = triple.columns.map((column) => {
      const at = columnAt(draft.base!, column);
      return draft.columns[at]?.turned !== before.columns[at]?.turned;
    });
    return {
      ...triple,
      signs: triple.signs.map((sign, k) => (turned[k] ? -sign : sign)) as AxisTriple['signs'],
      ...(sameUnit ? {} : { unit: draft[kind].unit, to_si: scaleOf(draft, kind) }),
    };
  };
  return sensors.map((sensor, at) => ({
    ...sensor,
    side: draft.sides[at] ?? sensor.side,
    side_value: draft.arrangement === 'rows' ? (draft.side_values[at] ?? sensor.side_value) : sensor.side_value,
    acc: changed(sensor.acc, 'acc'),
    gyr: sensor.gyr && changed(sensor.gyr, 'gyr'),
  }));
}

function sensorsByRole(draft: LayoutDraft): SensorColumns[] {
  const triple = (kind: 'acc' | 'gyr', sensor: 0 | 1): AxisTriple | null => {
    const columns = AXES.map((axis) => place(draft, kind, axis, sensor));
    if (columns.some((column) => column < 0)) return null;
    return {
      columns: columns as [number, number, number],
      signs: columns.map((column) => (draft.columns[column].turned ? -1 : 1)) as AxisTriple['signs'],
      unit: draft[kind].unit,
      to_si: scaleOf(draft, kind),
    };
  };
  const sensor = (which: 0 | 1): SensorColumns => ({
    side: draft.sides[which],
    side_value: draft.arrangement === 'rows' ? draft.side_values[which] : null,
    acc: triple('acc', draft.arrangement === 'columns' ? which : 0)!,
    gyr: triple('gyr', draft.arrangement === 'columns' ? which : 0),
  });
  if (draft.arrangement === 'one') return [sensor(0)];
  return [sensor(0), sensor(1)].filter(({ side_value }) => side_value !== '');
}

function scaleOf(draft: LayoutDraft, kind: 'acc' | 'gyr'): number {
  return (kind === 'acc' ? accScale(draft.acc) : gyrScale(draft.gyr)) ?? 1;
}
