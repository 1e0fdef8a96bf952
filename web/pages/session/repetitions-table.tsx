import type { ContactQuantity } from '../../../shared/analysis.ts';
import type { RepetitionFigures, RepetitionLine } from '../../../shared/schemas/repetition.ts';
import { paths } from '../../api.ts';
import { describeCourse } from '../../app/describe.ts';
import { formatQuantity, formatTime } from '../../app/format.ts';

interface RepetitionsTableProps {
  caption: string;
  repetitions: RepetitionLine[];
  /** Left out where all rows are one athlete's. */
  athleteName?: (athlete_id: number) => string;
}

interface Column {
  label: string;
  cell: (figures: RepetitionFigures) => string;
}

const figure = (quantity: ContactQuantity, value: number | null, u?: number | null) =>
  formatQuantity(quantity, value, u);

const COLUMNS: Column[] = [
  { label: 'contact time', cell: (f) => figure('contact_time_ms', f.contact_time_ms, f.contact_time_ms_u) },
  {
    label: 'left / right',
    cell: (f) =>
      f.contact_time_left_ms === null && f.contact_time_right_ms === null
        ? '–'
        : `${figure('contact_time_ms', f.contact_time_left_ms).replace(' ms', '')} / ${figure('contact_time_ms', f.contact_time_right_ms)}`,
  },
  { label: 'flight time', cell: (f) => figure('flight_time_ms', f.flight_time_ms, f.flight_time_ms_u) },
  { label: 'step rate', cell: (f) => figure('step_rate_hz', f.step_rate_hz, f.step_rate_hz_u) },
  { label: 'step length', cell: (f) => figure('step_length_m', f.step_length_m, f.step_length_m_u) },
  { label: 'top speed', cell: (f) => figure('speed_mps', f.speed_max_mps, f.speed_max_mps_u) },
];

/** Repetitions in order: rows on a wide screen, cards on a phone. Figures are means at speed. */
export function RepetitionsTable({ caption, repetitions, athleteName }: RepetitionsTableProps) {
  return (
    <table class="numbers cards">
      <caption class="visually-hidden">{caption}. Figures are means at speed, plus or minus 95 per cent.</caption>
      <thead>
        <tr>
          <th scope="col">no.</th>
          {athleteName && <th scope="col">athlete</th>}
          <th scope="col">course</th>
          <th scope="col">time</th>
          {COLUMNS.map(({ label }) => (
            <th scope="col" key={label}>
              {label}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {repetitions.map((repetition) => (
          <tr key={repetition.repetition_id}>
            <th scope="row">
              <a href={`#${paths.repetition(repetition.repetition_id)}`}>
                {repetition.order_number}
                <span class="visually-hidden"> {athleteName?.(repetition.athlete_id)}</span>
              </a>
            </th>
            {athleteName && <td class="word">{athleteName(repetition.athlete_id)}</td>}
            <td class="word">{describeCourse(repetition)}</td>
            <td data-label="time">{formatTime(repetition.course_time_s)}</td>
            {repetition.figures ? (
              COLUMNS.map(({ label, cell }) => (
                <td key={label} data-label={label}>
                  {cell(repetition.figures!)}
                </td>
              ))
            ) : (
              <td class="word" colSpan={COLUMNS.length}>
                {stateWords(repetition)}
              </td>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function stateWords(repetition: RepetitionLine): string {
  if (repetition.fault) return `no result: ${repetition.fault.message}`;
  return repetition.state === 'planned' ? 'planned, not run yet' : 'recorded, being measured';
}
