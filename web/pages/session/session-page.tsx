import { useState } from 'preact/hooks';
import '../coach/coach.css';
import './session.css';
import type { SessionVerdicts } from '../../../shared/schemas/coach/standing.ts';
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
import { coachPaths } from '../coach/coach-api.ts';
import { CautionList } from '../coach/parts/caution-list.tsx';
import { AthleteRepetitions } from './athlete-repetitions.tsx';
import { AthleteVerdicts } from './athlete-verdicts.tsx';
import { RepetitionsTable } from './repetitions-table.tsx';
import { SessionDialog } from './session-dialog.tsx';

const ORDERS = [
  { value: 'verdicts', label: 'verdicts' },
  { value: 'athlete', label: 'all numbers' },
  { value: 'running', label: 'in running order' },
] as const;
type Order = (typeof ORDERS)[number]['value'];

/** One day: verdicts and marks by athlete first, all numbers on request. */
export default function SessionPage({ params, query }: PageProps) {
  const session = useResource<SessionWithRepetitions>(paths.session(params.session_id));
  const directory = useDirectory();
  const [changing, setChanging] = useState(false);
  const asked = query.get('order');
  const order: Order = ORDERS.find(({ value }) => value === asked)?.value ?? 'verdicts';
  const verdicts = useResource<SessionVerdicts>(
    order === 'verdicts' ? coachPaths.sessionVerdicts(params.session_id) : null,
  );
  const first = Number(query.get('athlete_id')) || null;
  const waiting = session.value?.repetitions.some((line) => line.state === 'recorded' && !line.fault) ?? false;
  const isToday = session.value?.session_date === localToday();
  const reload = async () => {
    await Promise.all([session.reload(), verdicts.reload()]);
  };
  useRefresh(reload, waiting ? 1500 : isToday ? 10_000 : null);

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
            <a href={`#/compare?kind=repetitions&session_id=${value.session_id}`}>Compare</a>
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
                onChange={(next) => setQuery('order', next === 'verdicts' ? null : next)}
              />
              {order === 'verdicts' ? (
                <ResourceView resource={verdicts} name="the verdicts">
                  {(judged) => <AthleteVerdicts verdicts={judged} doubts={value.recording_doubts} first={first} />}
                </ResourceView>
              ) : order === 'running' ? (
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
          {verdicts.value && <CautionList cautions={verdicts.value.cautions} />}
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
