import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';
import { useState } from 'preact/hooks';
import type { SessionList } from '../../../shared/schemas/session.ts';
import { paths } from '../../api.ts';
import { formatDate } from '../../app/format.ts';
import { useResource } from '../../app/use-resource.ts';
import { SelectField } from '../../parts/select-field.tsx';

const t = phrasesOf('live', liveWords);
const common = phrasesOf('common', commonWords);

/** Without sensors: a stored session's packets again, at true speed, through the whole path. */
export function ReplaySection({ busy, onReplay }: { busy: boolean; onReplay: (session_id: number) => void }) {
  const sessions = useResource<SessionList>(paths.latestSessions);
  const [chosen, setChosen] = useState('');
  const playable = (sessions.value?.items ?? []).filter((session) => session.analysed_count > 0);
  if (playable.length === 0) return null;
  const session_id = chosen || String(playable[0].session_id);
  return (
    <section class="sheet" aria-label={t('replay_a_session')}>
      <h2>{t('no_sensors_at_hand_replay')}</h2>
      <p>{t('the_packets_of_a_stored')}</p>
      <div class="replay-row">
        <SelectField
          label={common('page_Session')}
          value={session_id}
          options={playable.map((session) => ({
            value: String(session.session_id),
            label: `${formatDate(session.session_date)}${session.title ? `, ${session.title}` : ''}`,
          }))}
          onChange={setChosen}
        />
        <button type="button" disabled={busy} onClick={() => onReplay(Number(session_id))}>
          {t('replay_this_session')}
        </button>
      </div>
    </section>
  );
}
