import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { sessionWords } from '../../../shared/messages/en/view/session.ts';
import type { AthleteSession, RepetitionMark, SessionVerdicts } from '../../../shared/schemas/coach/standing.ts';
import type { SessionWithRepetitions } from '../../../shared/schemas/session.ts';
import { paths } from '../../api.ts';
import { formatTime } from '../../app/format.ts';
import { BeyondMark, markOf } from '../coach/parts/verdict-mark.tsx';
import { displayQuantity, showValue } from '../coach/quantity-text.ts';
import { DayStrip } from './day-strip.tsx';
import { doubtWords } from './doubt-words.ts';

const t = phrasesOf('session', sessionWords);
const common = phrasesOf('common', commonWords);

interface AthleteVerdictsProps {
  verdicts: SessionVerdicts;
  doubts: SessionWithRepetitions['recording_doubts'];
  /** Stands first, where the page was opened for one athlete. */
  first: number | null;
}

/** A session by athlete: the verdict, the repetitions over what is normal, and a way to each. */
export function AthleteVerdicts({ verdicts, doubts, first }: AthleteVerdictsProps) {
  // Who the page was opened for, then who changed, then everyone else in running order.
  const place = ({ athlete_id, verdict }: AthleteSession) =>
    athlete_id === first ? 0 : verdict.kind === 'changed' ? 1 : 2;
  const athletes = [...verdicts.athletes].sort((a, b) => place(a) - place(b));
  return (
    <>
      <p class="standing-sentence">{daySentence(verdicts.athletes)}</p>
      <div class="day-cards">
        {athletes.map((athlete) => (
          <DayCard key={athlete.athlete_id} session_id={verdicts.session_id} athlete={athlete} doubts={doubts} />
        ))}
      </div>
      <p class="quiet small">{t('grey_bars_normal_for_the')}</p>
    </>
  );
}

/** `Better: Lucia R. Worse: Maren K. Everyone else within chance of what is usual.` */
function daySentence(athletes: readonly AthleteSession[]): string {
  const judged = athletes.filter(({ verdict }) => verdict.kind !== null && verdict.kind !== 'no comparison');
  const changed = judged.filter(({ verdict }) => verdict.kind === 'changed');
  if (judged.length === 0) return '';
  if (judged.every(({ verdict }) => verdict.kind === 'first')) return t('a_first_day_nothing_to');
  if (changed.length === 0) return t('nobody_left_what_is_usual');
  const named = (word: string, wanted: boolean | null) => {
    const names = changed.filter(({ verdict }) => verdict.wanted === wanted).map(({ name }) => name);
    return names.length === 0 ? '' : `${word}: ${names.join(', ')}.`;
  };
  const rest = changed.length < judged.length ? t('everyone_else_within_chance_of') : '';
  return [named(t('better'), true), named(t('worse'), false), named(t('changed'), null), rest]
    .filter(Boolean)
    .join(' ');
}

interface DayCardProps {
  session_id: number;
  athlete: AthleteSession;
  doubts: SessionWithRepetitions['recording_doubts'];
}

function DayCard({ session_id, athlete, doubts }: DayCardProps) {
  const { athlete_id, name, focus, verdict, sentence, marks } = athlete;
  const doubted = marks.flatMap((mark) => {
    const words = doubtWords(doubts, mark.repetition_id);
    return words ? [t('repetition', { order_number: mark.order_number, words })] : [];
  });
  return (
    <section class="day-card" aria-labelledby={`day-${athlete_id}`}>
      <h2 id={`day-${athlete_id}`}>
        <a class="quiet-link" href={`#/athletes/${athlete_id}`}>
          {name}
        </a>
      </h2>
      <p class="quiet small">{focus ? focus.name : common('no_focus_chosen')}</p>
      <p class={markOf(verdict)}>{sentence}</p>
      <DayStrip athlete={athlete} />
      <ol class="day-marks" aria-label={t('repetitions_of_2', { name })}>
        {marks.map((mark) => (
          <li key={mark.repetition_id}>
            <a href={`#${paths.repetition(mark.repetition_id)}`}>
              <span class="visually-hidden">{t('repetition_2')}</span>
              <strong>{mark.order_number}</strong>
              <span class="day-mark-value">{valueWords(mark, verdict.quantity)}</span>
              {mark.judged && <BeyondMark beyond={mark.judged.beyond} />}
              {mark.course_time_s !== null && <span class="quiet small">{formatTime(mark.course_time_s)}</span>}
            </a>
          </li>
        ))}
      </ol>
      {doubted.map((text) => (
        <p key={text} class="small row-doubt">
          {text}
        </p>
      ))}
      <p class="no-print">
        <a href={`#/reports/session/${session_id}/${athlete_id}`}>{t('page_for', { name })}</a>
      </p>
    </section>
  );
}

function valueWords({ judged }: RepetitionMark, quantity: string | null): string {
  if (judged === null || quantity === null) return t('no_result');
  const { unit } = displayQuantity(quantity);
  return `${showValue(quantity, judged.value)}${unit === 'deg' ? '°' : unit && ` ${unit}`}`;
}
