import type { AthleteSession, RepetitionMark, SessionVerdicts } from '../../../shared/schemas/coach/standing.ts';
import type { SessionWithRepetitions } from '../../../shared/schemas/session.ts';
import { paths } from '../../api.ts';
import { formatTime } from '../../app/format.ts';
import { BeyondMark, markOf } from '../coach/parts/verdict-mark.tsx';
import { displayQuantity, showValue } from '../coach/quantity-text.ts';
import { DayStrip } from './day-strip.tsx';
import { doubtWords } from './doubt-words.ts';

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
      <p class="quiet small">
        Grey bars: normal for the athlete at that effort and course. A ring, ▲ or ▼: beyond it by more than chance. The
        verdict is on the hardest effort of the day.
      </p>
    </>
  );
}

/** `Better: Lucia R. Worse: Maren K. Everyone else within chance of what is usual.` */
function daySentence(athletes: readonly AthleteSession[]): string {
  const judged = athletes.filter(({ verdict }) => verdict.kind !== null && verdict.kind !== 'no comparison');
  const changed = judged.filter(({ verdict }) => verdict.kind === 'changed');
  if (judged.length === 0) return '';
  if (judged.every(({ verdict }) => verdict.kind === 'first')) return 'A first day: nothing to compare with yet.';
  if (changed.length === 0) return 'Nobody left what is usual for them beyond chance.';
  const named = (word: string, wanted: boolean | null) => {
    const names = changed.filter(({ verdict }) => verdict.wanted === wanted).map(({ name }) => name);
    return names.length === 0 ? '' : `${word}: ${names.join(', ')}.`;
  };
  const rest = changed.length < judged.length ? 'Everyone else within chance of what is usual.' : '';
  return [named('Better', true), named('Worse', false), named('Changed', null), rest].filter(Boolean).join(' ');
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
    return words ? [`Repetition ${mark.order_number}: ${words}`] : [];
  });
  return (
    <section class="day-card" aria-labelledby={`day-${athlete_id}`}>
      <h2 id={`day-${athlete_id}`}>
        <a class="quiet-link" href={`#/athletes/${athlete_id}`}>
          {name}
        </a>
      </h2>
      <p class="quiet small">{focus ? focus.name : 'no focus chosen'}</p>
      <p class={markOf(verdict)}>{sentence}</p>
      <DayStrip athlete={athlete} />
      <ol class="day-marks" aria-label={`Repetitions of ${name}`}>
        {marks.map((mark) => (
          <li key={mark.repetition_id}>
            <a href={`#${paths.repetition(mark.repetition_id)}`}>
              <span class="visually-hidden">repetition </span>
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
        <a href={`#/reports/session/${session_id}/${athlete_id}`}>Page for {name}</a>
      </p>
    </section>
  );
}

function valueWords({ judged }: RepetitionMark, quantity: string | null): string {
  if (judged === null || quantity === null) return 'no result';
  const { unit } = displayQuantity(quantity);
  return `${showValue(quantity, judged.value)}${unit === 'deg' ? '°' : unit && ` ${unit}`}`;
}
