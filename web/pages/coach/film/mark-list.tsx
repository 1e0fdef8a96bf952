import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { filmWords } from '../../../../shared/messages/en/view/film.ts';
import { type FilmClock, markResiduals } from '../../../../shared/film-clock.ts';
import type { FilmMark } from '../../../../shared/schemas/coach/film.ts';
import { formatNumber } from '../../../app/format.ts';
import { instantWords } from './contact-instants.ts';

const t = phrasesOf('film', filmWords);
const common = phrasesOf('common', commonWords);

interface MarkListProps {
  marks: readonly FilmMark[];
  clock: FilmClock | null;
  frame_s: number;
  onChange: (marks: FilmMark[]) => void;
}

/** What the film is tied by, and how well the marks agree. */
export function MarkList({ marks, clock, frame_s, onChange }: MarkListProps) {
  if (!clock) return null;
  const residuals = markResiduals(clock, marks);
  return (
    <details class="more no-print" open={marks.length < 2}>
      <summary>
        {t('tied_by', { marks: common('n_marks', { n: marks.length }), clock: errorWords(clock, frame_s) })}
      </summary>
      <p class="quiet small">{adviceWords(clock)}</p>
      <ul class="film-marks">
        {marks.map((mark, index) => (
          <li key={`${mark.step} ${mark.event}`}>
            {t('step_s', { step: mark.step, instant: instantWords(mark.event), film_s: formatNumber(mark.film_s, 3) })}
            {marks.length > 2 &&
              t('ms_off_the_line', { index: formatNumber((residuals[index] / clock.rate) * 1000, 1) })}{' '}
            <button type="button" class="plain" onClick={() => onChange(marks.filter((one) => one !== mark))}>
              {t('take_away')}
              <span class="visually-hidden">{t('the_mark_of_step', { step: mark.step })}</span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** Error in the recording's time: what a coach compares with contact times. */
function errorWords({ u_s, rate, residual_s }: FilmClock, frame_s: number): string {
  const half_ms = ((1.96 * u_s) / rate) * 1000;
  const frame_ms = (frame_s / rate) * 1000;
  return t('good_to_ms', {
    half_ms: formatNumber(half_ms, 0),
    residual_s: residual_s === null ? t('by_frames_of_ms_and', { frame_ms: formatNumber(frame_ms, 1) }) : '',
  });
}

function adviceWords({ marks, rate, residual_s }: FilmClock): string {
  if (marks === 1) {
    return t('one_mark_takes_the_film');
  }
  if (Math.abs(rate - 1) < 0.02) {
    return residual_s === null ? t('the_film_runs_in_real') : t('the_film_runs_in_real_2');
  }
  return t('the_film_runs_times_slower', {
    rate: formatNumber(rate, 2),
    residual_s: residual_s === null ? t('a_third_mark_says_how') : '',
  });
}
