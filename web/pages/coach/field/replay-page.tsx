import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { ContactsPlot } from '../../live/contacts-plot.tsx';
import { live } from '../../live/live-api.ts';
import { useAttempt } from '../use-attempt.ts';
import { FieldScreen } from './field-screen.tsx';
import { useField } from './use-field.ts';
import { type Replay, useReplay } from './use-replay.ts';

const t = phrasesOf('field', fieldWords);

/** The field screen over a replay: a stored session's sensors send again, and each result stands as it did that evening. */
export function ReplayPage({ session_id }: { session_id: string }) {
  const replay = useReplay(session_id);
  const field = useField(session_id, replay.played);
  return (
    <FieldScreen session_id={session_id} field={field} replayed>
      <ReplayBar session_id={session_id} replay={replay} />
      {replay.now.map((event) => (
        <section key={event.athlete_id} class="field-running" aria-label={t('running_now')}>
          <p>
            <strong>{event.athlete_name}</strong> {t('running_contacts', { n: event.contacts.length })}
          </p>
          <ContactsPlot contacts={event.contacts} height={150} />
        </section>
      ))}
    </FieldScreen>
  );
}

/** Says that it is a replay, how far it is, and ends it or begins it anew. */
function ReplayBar({ session_id, replay }: { session_id: string; replay: Replay }) {
  const { fault, attempt } = useAttempt();
  const { running, played, total } = replay;
  return (
    <>
      <aside class="replay-bar no-print" aria-label={t('replay')}>
        <p role="status">
          <strong>{t('replay')}</strong>{' '}
          {running
            ? t('replay_progress', { done: played.length, total: total ?? 0 })
            : played.length > 0
              ? t('replay_over')
              : t('replay_not_running')}
        </p>
        {running ? (
          <button type="button" onClick={() => void attempt(() => live.stop())}>
            {t('replay_end')}
          </button>
        ) : (
          <button
            type="button"
            onClick={() => void attempt(() => live.replay({ session_id: Number(session_id), speed: 2 }))}
          >
            {t('replay_start')}
          </button>
        )}
      </aside>
      {fault && <FaultBox fault={fault} />}
    </>
  );
}
