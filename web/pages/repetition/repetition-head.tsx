import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import { phrasesOf } from '../../app/language.ts';
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { Repetition, RepetitionLine } from '../../../shared/schemas/repetition.ts';
import { api, paths } from '../../api.ts';
import { describeCourse } from '../../app/describe.ts';
import { formatClock, formatDate, formatShortDate, formatTime } from '../../app/format.ts';
import { go } from '../../app/router.ts';
import { offerUndo } from '../../parts/undo.tsx';
import { RepetitionDialog } from './repetition-dialog.tsx';

const t = phrasesOf('repetition', repetitionWords);

interface RepetitionHeadProps {
  repetition: Repetition;
  athleteName: string;
  /** The athlete's repetitions of the day, in order. */
  siblings: RepetitionLine[];
  onChanged: () => Promise<unknown>;
  /** The sentence that leads, once there is a result. */
  lead?: ComponentChildren;
}

/** Who, what, when; the way to the athlete's repetition before and after. */
export function RepetitionHead({ repetition, athleteName, siblings, onChanged, lead }: RepetitionHeadProps) {
  const [changing, setChanging] = useState(false);
  const index = siblings.findIndex((other) => other.repetition_id === repetition.repetition_id);
  const facts = [
    describeCourse(repetition),
    repetition.course_time_s === null ? '' : t('time_of', { time: formatTime(repetition.course_time_s) }),
    formatDate(repetition.session_date),
    repetition.recorded_utc ? formatClock(repetition.recorded_utc) : '',
    repetition.footwear ?? '',
  ];

  async function remove() {
    await api.deleteRepetition(repetition.repetition_id);
    offerUndo(t('deleted', { n: repetition.order_number, athlete: athleteName }), async () => {
      await api.restoreRepetition(repetition.repetition_id);
      go(paths.repetition(repetition.repetition_id));
    });
    go(paths.session(repetition.session_id));
  }

  return (
    <>
      <nav class="trail no-print" aria-label={t('where_this_is')}>
        <a href={`#${paths.session(repetition.session_id)}`}>
          {t('session_of', { date: formatShortDate(repetition.session_date) })}
        </a>
        <span class="trail-steps">
          <Step to={siblings[index - 1]} way="previous" mark="‹" />
          <Step to={siblings[index + 1]} way="next" mark="›" />
        </span>
      </nav>
      <div class="page-head">
        <div>
          <h1>
            <a class="quiet-link" href={`#/athletes/${repetition.athlete_id}`}>
              {athleteName}
            </a>
            , {t('repetition_n', { n: repetition.order_number })}
          </h1>
          <p class="quiet">{facts.filter(Boolean).join(' · ')}</p>
        </div>
        {lead && <div class="page-lead">{lead}</div>}
        <div class="actions">
          <a class="button" href={`#/repetitions/${repetition.repetition_id}/film`}>
            {t('film')}
          </a>
          <a
            class="button"
            href={`#/compare?kind=repetitions&a=${repetition.athlete_id}.${repetition.session_id}.${repetition.repetition_id}`}
          >
            {t('compare')}
          </a>
          <a class="button" href={`#/reports/repetition/${repetition.repetition_id}`}>
            {t('report')}
          </a>
          <button type="button" onClick={() => setChanging(true)}>
            {t('change')}
          </button>
          <button type="button" onClick={() => void remove()}>
            {t('delete')}
          </button>
        </div>
      </div>
      {repetition.notes && <p class="notes">{repetition.notes}</p>}
      <RepetitionDialog
        repetition={repetition}
        open={changing}
        onClose={() => setChanging(false)}
        onSaved={onChanged}
      />
    </>
  );
}

function Step({ to, way, mark }: { to: RepetitionLine | undefined; way: 'previous' | 'next'; mark: string }) {
  if (!to) return null;
  return (
    <a class="button" href={`#${paths.repetition(to.repetition_id)}`}>
      {way === 'previous' && <span aria-hidden="true">{mark}</span>}
      {t(way)}
      <span class="visually-hidden">{t('of_this_athlete', { n: to.order_number })}</span>
      {way === 'next' && <span aria-hidden="true">{mark}</span>}
    </a>
  );
}
