import { CONTACT_QUANTITIES, type Quantity } from './judge-case.ts';
import type { Figures } from './pool.ts';
import type { TargetLine } from './targets.ts';

const UNITS: Record<Quantity, string> = {
  touchdown: 'ms',
  toe_off: 'ms',
  contact_time: 'ms',
  step_length: 'cm',
  stride_length: '%',
  foot_pitch_touchdown: 'deg',
  foot_pitch_toe_off: 'deg',
  foot_progression: 'deg',
  shank_rotation: 'deg',
  shank_angle_touchdown: 'deg',
};
const HEADS: Record<Quantity, string> = {
  touchdown: 'touchdown',
  toe_off: 'toe-off',
  contact_time: 'contact time',
  step_length: 'step length',
  stride_length: 'stride length',
  foot_pitch_touchdown: 'pitch touchdown',
  foot_pitch_toe_off: 'pitch toe-off',
  foot_progression: 'progression',
  shank_rotation: 'shank rotation',
  shank_angle_touchdown: 'shank at touchdown',
};

/** One line a row of figures: found, missed, extra, then bias +- SD and coverage of each quantity. */
export function figuresTable(rows: Figures[], quantities: readonly Quantity[] = CONTACT_QUANTITIES): string {
  const label = Math.max(12, ...rows.map((row) => row.label.length)) + 2;
  const lines = [
    ''.padEnd(label) +
      'found'.padStart(12) +
      'extra'.padStart(6) +
      quantities.map((q) => `${HEADS[q]} ${UNITS[q]}`.padStart(24)).join(''),
  ];
  for (const row of rows) {
    lines.push(
      row.label.padEnd(label) +
        `${row.found}/${row.reference}`.padStart(12) +
        String(row.extra).padStart(6) +
        quantities
          .map((key) => {
            const q = row.quantities[key];
            if (!q) return '-'.padStart(24);
            const cover = q.coverage === null ? '' : ` ${(100 * q.coverage).toFixed(0).padStart(3)}%`;
            return `${q.bias.value.toFixed(1)} +- ${q.sd.toFixed(1)}${cover}`.padStart(24);
          })
          .join(''),
    );
  }
  return lines.join('\n');
}

/** Limits of agreement of contact time with their confidence intervals. */
export function limitsTable(rows: Figures[]): string {
  const label = Math.max(12, ...rows.map((row) => row.label.length)) + 2;
  return rows
    .filter((row) => row.quantities.contact_time)
    .map((row) => {
      const q = row.quantities.contact_time!;
      const span = (i: { value: number; low: number; high: number }) =>
        `${i.value.toFixed(1)} [${i.low.toFixed(1)}; ${i.high.toFixed(1)}]`.padStart(24);
      return row.label.padEnd(label) + span(q.bias) + span(q.lower_limit) + span(q.upper_limit);
    })
    .join('\n');
}

export function targetsTable(lines: TargetLine[]): string {
  const width = (key: keyof TargetLine) => Math.max(...lines.map((line) => String(line[key]).length)) + 2;
  return lines
    .map(
      (line) =>
        (line.met ? 'met    ' : 'NOT MET') +
        '  ' +
        line.what.padEnd(width('what')) +
        line.reached.padEnd(width('reached')) +
        line.target.padEnd(width('target')) +
        `(${line.published})`,
    )
    .join('\n');
}
