import { type FilmClock, markResiduals } from '../../../../shared/film-clock.ts';
import type { FilmMark } from '../../../../shared/schemas/coach/film.ts';
import { count } from '../../../app/describe.ts';
import { formatNumber } from '../../../app/format.ts';
import { INSTANT_WORDS } from './contact-instants.ts';

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
        Tied by {count(marks.length, 'mark')}, {errorWords(clock, frame_s)}
      </summary>
      <p class="quiet small">{adviceWords(clock)}</p>
      <ul class="film-marks">
        {marks.map((mark, index) => (
          <li key={`${mark.step} ${mark.event}`}>
            step {mark.step}, {INSTANT_WORDS[mark.event]}: {formatNumber(mark.film_s, 3)} s
            {marks.length > 2 && `, ${formatNumber((residuals[index] / clock.rate) * 1000, 1)} ms off the line`}{' '}
            <button type="button" class="plain" onClick={() => onChange(marks.filter((one) => one !== mark))}>
              Take away<span class="visually-hidden"> the mark of step {mark.step}</span>
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
  return `good to ± ${formatNumber(half_ms, 0)} ms${residual_s === null ? ` by frames of ${formatNumber(frame_ms, 1)} ms and the recording` : ''}`;
}

function adviceWords({ marks, rate, residual_s }: FilmClock): string {
  if (marks === 1) {
    return 'One mark takes the film to run in real time. Mark a second touchdown half a second or more away: then slow motion is told, and a third says how well the marks agree.';
  }
  if (Math.abs(rate - 1) < 0.02) {
    return residual_s === null
      ? 'The film runs in real time. A third mark says how well the marks agree.'
      : 'The film runs in real time.';
  }
  return `The film runs ${formatNumber(rate, 2)} times slower than the run.${residual_s === null ? ' A third mark says how well the marks agree.' : ''}`;
}
