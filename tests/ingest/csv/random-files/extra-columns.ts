import type { Draw } from './draw.ts';
import type { Language } from './languages.ts';

export interface ExtraColumn {
  name: string;
  unit: string;
  cell: (row: number, t: number) => string;
}

/** Columns that have nothing to do with the measurement and must be left alone. */
export function extraColumns(draw: Draw, language: Language): ExtraColumn[] {
  const columns: ExtraColumn[] = [];
  const phase = draw.between(0, 6);
  if (draw.chance(0.25)) {
    const word = draw.pick(['Mag', 'Magnetometer', 'mag', 'Magnetic Field', 'm']);
    for (const [i, axis] of ['x', 'y', 'z'].entries())
      columns.push({
        name: word === 'm' ? `m${axis}` : `${word}_${axis.toUpperCase()}`,
        unit: 'uT',
        cell: (_row, t) => (35 * Math.sin(2 * t + i + phase) + 3 * Math.cos(11 * t)).toFixed(2),
      });
  }
  if (draw.chance(0.15)) {
    for (const part of ['w', 'x', 'y', 'z'])
      columns.push({
        name: draw.chance(0) ? '' : `Quat_${part.toUpperCase()}`,
        unit: '',
        cell: (_row, t) => (0.5 * Math.sin(t + part.charCodeAt(0))).toFixed(5),
      });
  }
  if (draw.chance(0.12)) {
    for (const angle of ['Roll', 'Pitch', 'Yaw'])
      columns.push({
        name: `${angle} [deg]`,
        unit: 'deg',
        cell: (_row, t) => (60 * Math.sin(8 * t + angle.length)).toFixed(2),
      });
  }
  if (draw.chance(0.25))
    columns.push({
      name: draw.pick(language.other),
      unit: draw.pick(['°C', 'V', 'hPa', '']),
      cell: (row) => (23 + 0.001 * Math.floor(row / 50)).toFixed(2),
    });
  if (draw.chance(0.06))
    columns.push({
      name: draw.pick(['Heart Rate', 'HR', 'bpm']),
      unit: 'bpm',
      cell: (row) => String(140 + (row >> 9)),
    });
  if (draw.chance(0.05))
    for (const [name, from] of [
      ['Latitude', 48.1],
      ['Longitude', 11.6],
      ['Speed (m/s)', 0],
    ] as const)
      columns.push({
        name,
        unit: '',
        cell: (_row, t) => (from + (from === 0 ? 2 : 1e-5) * Math.sin(t / 3)).toFixed(6),
      });
  if (draw.chance(0.1))
    columns.push({ name: draw.pick(['status', 'label', 'Bemerkung', 'activity']), unit: '', cell: () => 'ok' });
  return columns;
}
