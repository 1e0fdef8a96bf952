import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import { useState } from 'preact/hooks';
import type { AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import { formatDate, localToday } from '../../../app/format.ts';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { coachApi } from '../coach-api.ts';
import { useAttempt } from '../use-attempt.ts';

const t = phrasesOf('athletes', athletesWords);
const common = phrasesOf('common', commonWords);

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
      <h2>{t('returning_from_an_injury')}</h2>
      {fault && <FaultBox fault={fault} />}
      {returning ? (
        <>
          <p>
            {t('since_nothing_is_compared_with', { since_date: formatDate(returning.since_date) })}
            {returning.note && <span class="notes">{returning.note}</span>}
          </p>
          <button type="button" onClick={() => void attempt(() => coachApi.setReturning(athlete.athlete_id, null))}>
            {t('back_to_normal_training')}
          </button>
        </>
      ) : (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            void attempt(() => coachApi.setReturning(athlete.athlete_id, { since_date: since, note }));
          }}
        >
          <p class="quiet">{t('while_the_mark_is_set', { name: athlete.name })}</p>
          <div class="field-grid">
            <TextField label={t('since')} type="date" value={since} onChange={setSince} required />
            <TextField
              label={common('note')}
              value={note}
              onChange={setNote}
              placeholder={t('what_the_clinician_allows')}
            />
          </div>
          <button type="submit">{t('mark_as_returning')}</button>
        </form>
      )}
    </section>
  );
}
