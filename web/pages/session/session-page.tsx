import { useState } from 'preact/hooks';
import type { SessionWithRepetitions } from '../../../shared/schemas/session.ts';
import { api, paths } from '../../api.ts';
import { count } from '../../app/describe.ts';
import { useDirectory } from '../../app/directory.ts';
import { formatDate, localToday } from '../../app/format.ts';
import { go, type PageProps, setQuery } from '../../app/router.ts';
import { useRefresh } from '../../app/use-refresh.ts';
import { useResource } from '../../app/use-resource.ts';
import { Choice } from '../../parts/choice.tsx';
import { EmptyState } from '../../parts/empty-state.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';
import { offerUndo } from '../../parts/undo.tsx';
import { AthleteRepetitions } from './athlete-repetitions.tsx';
import { RepetitionsTable } from './repetitions-table.tsx';
import { SessionDialog } from './session-dialog.tsx';

const ORDERS = [
  { value: 'athlete', label: 'by athlete' },
  { value: 'running', label: 'in running order' },
] as const;
type Order = (typeof ORDERS)[number]['value'];

/** One day's repetitions, in order or by athlete, each with its figures. */
export default function SessionPage({ params, query }: PageProps) {
  const session = useResource<SessionWithRepetitions>(paths.session(params.session_id));
  const waiting = session.value?.repetitions.some((line) => line.state === 'recorded' && !line.fault) ?? false;
  const isToday = session.value?.session_date === localToday();
  useRefresh(session.reload, waiting ? 1500 : isToday ? 10_000 : null);
  const directory = useDirectory();
  const [changing, setChanging] = useState(false);
  const order: Order = query.get('order') === 'running' ? 'running' : 'athlete';

  async function remove(value: SessionWithRepetitions) {
    await api.deleteSession(value.session_id);
    offerUndo(`Session of ${formatDate(value.session_date)} deleted.`, async () => {
      await api.restoreSession(value.session_id);
      go(paths.session(value.session_id));
    });
    go(paths.sessions);
  }

  return (
    <ResourceView resource={session} name="session">
      {(value) => (
        <>
          <p class="trail no-print">
            <a href="#/sessions">Sessions</a>
          </p>
          <div class="page-head">
            <div>
              <h1>{value.title || 'Session'}</h1>
              <p class="quiet">
                {[
                  formatDate(value.session_date),
                  directory.groupName(value.group_id),
                  value.place,
                  value.surface,
                  count(value.repetitions.length, 'repetition'),
                ]
                  .filter(Boolean)
                  .join(', ')}
              </p>
            </div>
            <div class="actions">
              <a class="button primary" href={`#/files?session_id=${value.session_id}`}>
                Add files
              </a>
              <button type="button" onClick={() => setChanging(true)}>
                Change
              </button>
              <button type="button" onClick={() => void remove(value)}>
                Delete
              </button>
            </div>
          </div>
          <nav class="links no-print" aria-label="More of this session">
            <a href={`#/field/${value.session_id}`}>Field screen</a>
            <a href={`#/plan/${value.session_id}`}>Plan</a>
            <a href={`#/sessions/${value.session_id}/fatigue`}>Through the session</a>
          </nav>
          {value.notes && <p class="notes">{value.notes}</p>}
          {value.repetitions.length === 0 ? (
            <EmptyState title="No repetitions in this session yet">
              <p>
                Bring in the files of its repetitions with <strong>Add files</strong>, or record them live. Each one
                appears here with its figures as soon as it is measured.
              </p>
            </EmptyState>
          ) : (
            <>
              <Choice
                legend="Show repetitions"
                quiet
                value={order}
                options={ORDERS}
                onChange={(next) => setQuery('order', next === 'athlete' ? null : next)}
              />
              {order === 'running' ? (
                <RepetitionsTable
                  doubts={value.recording_doubts}
                  caption="Repetitions in running order"
                  repetitions={value.repetitions}
                  athleteName={directory.athleteName}
                />
              ) : (
                <AthleteRepetitions
                  repetitions={value.repetitions}
                  doubts={value.recording_doubts}
                  athleteName={directory.athleteName}
                />
              )}
            </>
          )}
          <SessionDialog
            session={value}
            open={changing}
            directory={directory}
            onClose={() => setChanging(false)}
            onSaved={() => void session.reload()}
          />
        </>
      )}
    </ResourceView>
  );
}
