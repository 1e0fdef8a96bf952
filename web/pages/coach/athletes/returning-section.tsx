import { useState } from 'preact/hooks';
import type { AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import { formatDate, localToday } from '../../../app/format.ts';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { coachApi } from '../coach-api.ts';
import { useAttempt } from '../use-attempt.ts';

interface ReturningSectionProps {
  record: AthleteRecord;
  onChanged: () => Promise<void>;
}

/** Marks an athlete as returning from an injury: values stand alone then, and the caution stands with them. */
export function ReturningSection({ record, onChanged }: ReturningSectionProps) {
  const { athlete, returning } = record;
  const [since, setSince] = useState(localToday());
  const [note, setNote] = useState('');
  const { fault, attempt } = useAttempt(onChanged);
  return (
    <section class="sheet">
      <h2>Returning from an injury</h2>
      {fault && <FaultBox fault={fault} />}
      {returning ? (
        <>
          <p>
            Since {formatDate(returning.since_date)}: nothing is compared with what was usual before.{' '}
            {returning.note && <span class="notes">{returning.note}</span>}
          </p>
          <button type="button" onClick={() => void attempt(() => coachApi.setReturning(athlete.athlete_id, null))}>
            Back to normal training
          </button>
        </>
      ) : (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            void attempt(() => coachApi.setReturning(athlete.athlete_id, { since_date: since, note }));
          }}
        >
          <p class="quiet">
            While the mark is set, {athlete.name} gets values without comparison. The clinician's plan comes first.
          </p>
          <div class="field-grid">
            <TextField label="Since" type="date" value={since} onChange={setSince} required />
            <TextField label="Note" value={note} onChange={setNote} placeholder="what the clinician allows" />
          </div>
          <button type="submit">Mark as returning</button>
        </form>
      )}
    </section>
  );
}
