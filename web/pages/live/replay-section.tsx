import { useState } from 'preact/hooks';
import type { SessionList } from '../../../shared/schemas/session.ts';
import { paths } from '../../api.ts';
import { formatDate } from '../../app/format.ts';
import { useResource } from '../../app/use-resource.ts';
import { SelectField } from '../../parts/select-field.tsx';

/** Without sensors: a stored session's packets again, at true speed, through the whole path. */
export function ReplaySection({ busy, onReplay }: { busy: boolean; onReplay: (session_id: number) => void }) {
  const sessions = useResource<SessionList>(paths.sessions);
  const [chosen, setChosen] = useState('');
  const playable = (sessions.value?.items ?? []).filter((session) => session.analysed_count > 0);
  if (playable.length === 0) return null;
  const session_id = chosen || String(playable[0].session_id);
  return (
    <section class="sheet" aria-label="Replay a session">
      <h2>No sensors at hand? Replay a session</h2>
      <p>
        The packets of a stored session are sent again at true speed and take the same way as those of real sensors.
        Nothing is stored twice.
      </p>
      <div class="replay-row">
        <SelectField
          label="Session"
          value={session_id}
          options={playable.map((session) => ({
            value: String(session.session_id),
            label: `${formatDate(session.session_date)}${session.title ? `, ${session.title}` : ''}`,
          }))}
          onChange={setChosen}
        />
        <button type="button" disabled={busy} onClick={() => onReplay(Number(session_id))}>
          Replay this session
        </button>
      </div>
    </section>
  );
}
