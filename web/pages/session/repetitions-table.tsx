import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { sessionWords } from '../../../shared/messages/en/view/session.ts';
import { speech, phrasesOf } from '../../app/language.ts';
import type { ContactQuantity } from '../../../shared/analysis.ts';
import type { RepetitionFigures, RepetitionLine } from '../../../shared/schemas/repetition.ts';
import type { SessionWithRepetitions } from '../../../shared/schemas/session.ts';
import { paths } from '../../api.ts';
import { describeCourseShortly } from '../../app/describe.ts';
import { displayOf, formatNumber, shownQuantity } from '../../app/format.ts';
import { doubtWords } from './doubt-words.ts';

const t = phrasesOf('session', sessionWords);
const common = phrasesOf('common', commonWords);

interface RepetitionsTableProps {
  caption: string;
  repetitions: RepetitionLine[];
  /** Of the whole session. */
  doubts: SessionWithRepetitions['recording_doubts'];
  /** Left out where all rows are one athlete's. */
  athleteName?: (athlete_id: number) => string;
}

interface Column {
  /** Its own name, where it is not that of the quantity. */
  words?: 'left_right' | 'top_speed';
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
    quantity: 'contact_time_ms',
    cell: (f) => figure('contact_time_ms', f.contact_time_ms, f.contact_time_ms_u),
  },
  {
    words: 'left_right',
    quantity: 'contact_time_ms',
    cell: (f) => `${formatNumber(f.contact_time_left_ms, 0)} / ${formatNumber(f.contact_time_right_ms, 0)}`,
  },
  { words: 'top_speed', quantity: 'speed_mps', cell: (f) => figure('speed_mps', f.speed_max_mps, f.speed_max_mps_u) },
  {
    quantity: 'flight_time_ms',
    cell: (f) => figure('flight_time_ms', f.flight_time_ms, f.flight_time_ms_u),
    wideOnly: true,
  },
  {
    quantity: 'step_rate_hz',
    cell: (f) => figure('step_rate_hz', f.step_rate_hz, f.step_rate_hz_u),
    wideOnly: true,
  },
  {
    quantity: 'step_length_m',
    cell: (f) => figure('step_length_m', f.step_length_m, f.step_length_m_u),
    wideOnly: true,
  },
];

const labelOf = ({ words, quantity }: Column): string => (words ? t(words) : displayOf(quantity).label);

/** Repetitions in order: rows on a wide screen, cards on a phone. Figures are means at speed. */
export function RepetitionsTable({ caption, repetitions, doubts, athleteName }: RepetitionsTableProps) {
  return (
    <table class="numbers cards">
      <caption class="visually-hidden">{t('figures_are_means_at_speed', { caption })}</caption>
      <thead>
        <tr>
          <th scope="col">{common('no')}</th>
          {athleteName && (
            <th scope="col" class="word">
              {common('athlete_2')}
            </th>
          )}
          <th scope="col" class="word">
            {t('course')}
          </th>
          <th scope="col">
            {common('time')}
            <span class="unit">s</span>
          </th>
          {COLUMNS.map((column) => (
            <th scope="col" key={labelOf(column)}>
              {labelOf(column)}
              <span class="unit">{displayOf(column.quantity).unit}</span>
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
          <span class="visually-hidden">{t('repetition_2')}</span>
          {repetition.order_number}
        </a>
      </th>
      {name !== null && <td class="word">{name}</td>}
      <td class="word">
        {describeCourseShortly(repetition)}
        {doubt && <span class="row-doubt">{doubt}</span>}
      </td>
      <td data-label={t('time_s')}>{formatNumber(repetition.course_time_s, 2)}</td>
      {figures ? (
        COLUMNS.map((column) => (
          <td
            key={labelOf(column)}
            data-label={`${labelOf(column)}, ${displayOf(column.quantity).unit}`}
            class={column.wideOnly ? 'phone-off' : undefined}
          >
            {column.cell(figures)}
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
  if (repetition.fault) return t('no_result_2', { message: speech.value.tell(repetition.fault).message });
  return repetition.state === 'planned' ? t('planned_not_run_yet') : t('recorded_being_measured');
}
