import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';
import { useEffect, useState } from 'preact/hooks';
import type { FieldAthlete } from '../../../../shared/schemas/coach/field-view.ts';
import { courseText } from '../quantity-text.ts';
import { startStyleWords } from '../../../app/describe.ts';

const t = phrasesOf('field', fieldWords);

/** A recording older than this is another evening's: no rest is counted from it. */
const LONGEST_REST_MS = 60 * 60 * 1000;

/** What comes next for this athlete, and how much of the rest is over. */
export function RestClock({ athlete }: { athlete: FieldAthlete }) {
  const { next_set, latest, planned, done } = athlete;
  const [now, setNow] = useState(Date.now());
  const since = latest
    ? Date.parse((latest.clock_question === '' ? latest.recorded_utc : null) ?? latest.updated_utc)
    : Number.NaN;
  const rested_ms = now - since;
  const counting = Number.isFinite(rested_ms) && rested_ms >= 0 && rested_ms < LONGEST_REST_MS;
  useEffect(() => {
    if (!counting) return;
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, [counting]);
  if (planned !== null && next_set === null) {
    return (
      <p class="next-line">
        <strong>{t('all_done')}</strong> {t('all_planned', { done })}
      </p>
    );
  }
  const rest = counting
    ? t('rested', { time: clock(rested_ms), of: next_set ? clock(next_set.rest_s * 1000) : '' })
    : '';
  if (!next_set) return rest ? <p class="next-line">{rest}</p> : null;
  const ready = counting && rested_ms >= next_set.rest_s * 1000;
  return (
    <p class="next-line">
      <strong>{t('next')}</strong>{' '}
      {t('next_set', { course: courseText(next_set.distance_m), percent: next_set.effort_percent })},{' '}
      {startStyleWords(next_set.start_style)}
      {next_set.note ? `, "${next_set.note}"` : ''}
      {rest && (
        <span class={ready ? 'rest is-ready' : 'rest'}>
          {rest}
          {ready ? t('ready') : ''}
        </span>
      )}
    </p>
  );
}

function clock(ms: number): string {
  const seconds = Math.floor(ms / 1000);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
}
