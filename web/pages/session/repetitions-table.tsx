import { speech } from '../../app/language.ts';
import type { ContactQuantity } from '../../../shared/analysis.ts';
import type { RepetitionFigures, RepetitionLine } from '../../../shared/schemas/repetition.ts';
import type { SessionWithRepetitions } from '../../../shared/schemas/session.ts';
import { paths } from '../../api.ts';
import { describeCourseShortly } from '../../app/describe.ts';
import { displayOf, formatNumber, shownQuantity } from '../../app/format.ts';
import { doubtWords } from './doubt-words.ts';

interface RepetitionsTableProps {
  caption: string;
  repetitions: RepetitionLine[];
  /** Of the whole session. */
  doubts: SessionWithRepetitions['recording_doubts'];
  /** Left out where all rows are one athlete's. */
  athleteName?: (athlete_id: number) => string;
}

interface Column {
  label: string;
  quantity: ContactQuantity;
  cell: (figures: RepetitionFigures) => string;
  /** Left out of the cards on a phone; the repetition's page has it. */
  wideOnly?: boolean;
}

/** `118 ± 2` without its unit, which stands in the head. */
function figure(quantity: ContactQuantity, value: number | null, u: number | null): string {
  if (value === null) return '–';
  const shown = shownQuantity(quantity, value, u);
  return shown.half ? `${shown.value} ± ${shown.half}` : shown.value;
}

const COLUMNS: Column[] = [
  {
    label: 'contact time',
    quantity: 'contact_time_ms',
    cell: (f) => figure('contact_time_ms', f.contact_time_ms, f.contact_time_ms_u),
  },
  {
    label: 'left / right',
    quantity: 'contact_time_ms',
    cell: (f) => `${formatNumber(f.contact_time_left_ms, 0)} / ${formatNumber(f.contact_time_right_ms, 0)}`,
  },
  { label: 'top speed', quantity: 'speed_mps', cell: (f) => figure('speed_mps', f.speed_max_mps, f.speed_max_mps_u) },
  {
    label: 'flight time',
    quantity: 'flight_time_ms',
    cell: (f) => figure('flight_time_ms', f.flight_time_ms, f.flight_time_ms_u),
    wideOnly: true,
  },
  {
    label: 'step rate',
    quantity: 'step_rate_hz',
    cell: (f) => figure('step_rate_hz', f.step_rate_hz, f.step_rate_hz_u),
    wideOnly: true,
  },
  {
    label: 'step length',
    quantity: 'step_length_m',
    cell: (f) => figure('step_length_m', f.step_length_m, f.step_length_m_u),
    wideOnly: true,
  },
];

/** Repetitions in order: rows on a wide screen, cards on a phone. Figures are means at speed. */
export function RepetitionsTable({ caption, repetitions, doubts, athleteName }: RepetitionsTableProps) {
  return (
    <table class="numbers cards">
      <caption class="visually-hidden">{caption}. Figures are means at speed, plus or minus 95 per cent.</caption>
      <thead>
        <tr>
          <th scope="col">no.</th>
          {athleteName && (
            <th scope="col" class="word">
              athlete
            </th>
          )}
          <th scope="col" class="word">
            course
          </th>
          <th scope="col">
            time<span class="unit">s</span>
          </th>
          {COLUMNS.map(({ label, quantity }) => (
            <th scope="col" key={label}>
              {label}
              <span class="unit">{displayOf(quantity).unit}</span>
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {repetitions.map((repetition) => (
          <Row
            key={repetition.repetition_id}
            repetition={repetition}
            doubt={doubtWords(doubts, repetition.repetition_id)}
            name={athleteName?.(repetition.athlete_id) ?? null}
          />
        ))}
      </tbody>
    </table>
  );
}

function Row({ repetition, doubt, name }: { repetition: RepetitionLine; doubt: string; name: string | null }) {
  const { figures } = repetition;
  return (
    <tr>
      <th scope="row">
        <a href={`#${paths.repetition(repetition.repetition_id)}`}>
          <span class="visually-hidden">repetition </span>
          {repetition.order_number}
        </a>
      </th>
      {name !== null && <td class="word">{name}</td>}
      <td class="word">
        {describeCourseShortly(repetition)}
        {doubt && <span class="row-doubt">{doubt}</span>}
      </td>
      <td data-label="time, s">{formatNumber(repetition.course_time_s, 2)}</td>
      {figures ? (
        COLUMNS.map(({ label, quantity, cell, wideOnly }) => (
          <td
            key={label}
            data-label={`${label}, ${displayOf(quantity).unit}`}
            class={wideOnly ? 'phone-off' : undefined}
          >
            {cell(figures)}
          </td>
        ))
      ) : (
        <td class="word wrap" colSpan={COLUMNS.length}>
          {stateWords(repetition)}
        </td>
      )}
    </tr>
  );
}

function stateWords(repetition: RepetitionLine): string {
  if (repetition.fault) return `no result: ${speech.value.tell(repetition.fault).message}`;
  return repetition.state === 'planned' ? 'planned, not run yet' : 'recorded, being measured';
}
