import type { QuantitySummary, RepetitionResult } from '../../shared/analysis.ts';
import { STEP_QUANTITIES } from '../../shared/fields.ts';
import { csvText } from '../csv-text.ts';
import { csvNumber, fileDecimals } from './csv-number.ts';
import { CURVE_COLUMNS, PRIOR_COLUMNS } from './curve-columns.ts';
import { reasonText } from './reason-text.ts';

const PLAIN_COLUMNS = [
  'repetition',
  'travel',
  'contacts',
  'first_movement_s',
  'first_movement_s_u',
  'start_s',
  'end_s',
  'course_end_s',
  'distance_m',
  'time_s',
  'speed_max_mps',
  'speed_max_mps_u',
  'vmax_mps',
  'vmax_mps_u',
  'tau_s',
  'tau_s_u',
];

export const REPETITIONS_CSV_COLUMNS = [
  ...PLAIN_COLUMNS,
  // Mean at speed, its standard uncertainty and the spread between contacts.
  ...STEP_QUANTITIES.flatMap((field) => [field, `${field}_u`, `${field}_sd`]),
  'contact_time_left_ms',
  'contact_time_right_ms',
  'contacts_at_speed',
  // The fitted curve; its first parameters stand above.
  ...CURVE_COLUMNS.map(({ name }) => name).filter((name) => !PLAIN_COLUMNS.includes(name)),
  'curve_from',
  'kinetics_reason',
  'contacts_missing',
  ...PRIOR_COLUMNS.map(({ name }) => name),
];

/** One row a repetition. Quantities are means over the contacts at speed. */
export function repetitionsCsv(repetitions: Iterable<RepetitionResult>): string {
  const rows = Array.from(repetitions, (repetition) => {
    const cells = cellsOf(repetition);
    return REPETITIONS_CSV_COLUMNS.map((column) => cells[column] ?? '');
  });
  return csvText({ fields: REPETITIONS_CSV_COLUMNS, data: rows });
}

function cellsOf(repetition: RepetitionResult): Record<string, string> {
  const { summary, speed_curve } = repetition;
  const numbers: Record<string, number | null | undefined> = {
    first_movement_s: repetition.first_movement_s,
    first_movement_s_u: repetition.first_movement_s_u,
    start_s: repetition.start_s,
    end_s: repetition.end_s,
    course_end_s: repetition.course_end_s,
    distance_m: summary.distance_m,
    time_s: summary.time_s,
    speed_max_mps: summary.speed_max_mps,
    speed_max_mps_u: summary.speed_max_mps_u,
    vmax_mps: speed_curve?.vmax_mps,
    vmax_mps_u: speed_curve?.vmax_mps_u,
    tau_s: speed_curve?.tau_s,
    tau_s_u: speed_curve?.tau_s_u,
    contact_time_left_ms: summary.left.contact_time_ms?.mean,
    contact_time_right_ms: summary.right.contact_time_ms?.mean,
  };
  const cells: Record<string, string> = {
    repetition: String(repetition.repetition),
    travel: repetition.travel,
    contacts: String(summary.contacts),
    curve_from: speed_curve?.from ?? '',
    kinetics_reason: repetition.kinetics ? '' : reasonText(repetition.reasons.kinetics),
    contacts_at_speed: String(summary.at_speed.contact_time_ms?.n ?? 0),
  };
  for (const { name, decimals, value } of [...CURVE_COLUMNS, ...PRIOR_COLUMNS])
    cells[name] = csvNumber(value(repetition), decimals);
  if (summary.contacts_missing !== undefined) cells.contacts_missing = String(summary.contacts_missing);
  for (const [name, value] of Object.entries(numbers)) cells[name] = csvNumber(value, fileDecimals(name));
  for (const field of STEP_QUANTITIES) {
    const quantity: QuantitySummary | undefined = summary.at_speed[field];
    cells[field] = csvNumber(quantity?.mean, fileDecimals(field));
    cells[`${field}_u`] = csvNumber(quantity?.mean_u, fileDecimals(field));
    cells[`${field}_sd`] = csvNumber(quantity?.sd, fileDecimals(field));
  }
  return cells;
}
