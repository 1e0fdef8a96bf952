import { useState } from 'preact/hooks';
import type { Repetition, RepetitionLine } from '../../../shared/schemas/repetition.ts';
import { api, paths } from '../../api.ts';
import { describeCourse } from '../../app/describe.ts';
import { formatClock, formatDate, formatShortDate, formatTime } from '../../app/format.ts';
import { go } from '../../app/router.ts';
import { offerUndo } from '../../parts/undo.tsx';
import { RepetitionDialog } from './repetition-dialog.tsx';

interface RepetitionHeadProps {
  repetition: Repetition;
  athleteName: string;
  /** The athlete's repetitions of the day, in order. */
  siblings: RepetitionLine[];
  onChanged: () => Promise<unknown>;
}

/** Who, what, when; the way to the athlete's repetition before and after. */
export function RepetitionHead({ repetition, athleteName, siblings, onChanged }: RepetitionHeadProps) {
  const [changing, setChanging] = useState(false);
  const index = siblings.findIndex((other) => other.repetition_id === repetition.repetition_id);
  const facts = [
    describeCourse(repetition),
    repetition.course_time_s === null ? '' : `time ${formatTime(repetition.course_time_s)}`,
    formatDate(repetition.session_date),
    repetition.recorded_utc ? formatClock(repetition.recorded_utc) : '',
    repetition.footwear ?? '',
  ];

  async function remove() {
    await api.deleteRepetition(repetition.repetition_id);
    offerUndo(`Repetition ${repetition.order_number} of ${athleteName} deleted.`, async () => {
      await api.restoreRepetition(repetition.repetition_id);
      go(paths.repetition(repetition.repetition_id));
    });
    go(paths.session(repetition.session_id));
  }

  return (
    <>
      <nav class="trail no-print" aria-label="Where this is">
        <a href={`#${paths.session(repetition.session_id)}`}>Session, {formatShortDate(repetition.session_date)}</a>
        <span class="trail-steps">
          <Step to={siblings[index - 1]} label="Previous" mark="‹" />
          <Step to={siblings[index + 1]} label="Next" mark="›" />
        </span>
      </nav>
      <div class="page-head">
        <div>
          <h1>
            <a class="quiet-link" href={`#/athletes/${repetition.athlete_id}`}>
              {athleteName}
            </a>
            , repetition {repetition.order_number}
          </h1>
          <p class="quiet">{facts.filter(Boolean).join(' · ')}</p>
        </div>
        <div class="actions">
          <a class="button" href={`#/reports/repetition/${repetition.repetition_id}`}>
            Report
          </a>
          <button type="button" onClick={() => setChanging(true)}>
            Change
          </button>
          <button type="button" onClick={() => void remove()}>
            Delete
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

function Step({ to, label, mark }: { to: RepetitionLine | undefined; label: string; mark: string }) {
  if (!to) return null;
  return (
    <a class="button" href={`#${paths.repetition(to.repetition_id)}`}>
      {label === 'Previous' && <span aria-hidden="true">{mark}</span>}
      {label}
      <span class="visually-hidden"> repetition of this athlete, number {to.order_number}</span>
      {label === 'Next' && <span aria-hidden="true">{mark}</span>}
    </a>
  );
}
