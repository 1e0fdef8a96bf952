import { useState } from 'preact/hooks';
import type { Session, SessionList } from '../../../shared/schemas/session.ts';
import { paths } from '../../api.ts';
import { count } from '../../app/describe.ts';
import { type Directory, useDirectory } from '../../app/directory.ts';
import { formatDate, formatDay, formatMonth } from '../../app/format.ts';
import { go, type PageProps, setQuery } from '../../app/router.ts';
import { useResource } from '../../app/use-resource.ts';
import { DemoNote } from '../../parts/demo-note.tsx';
import { DeletedList } from '../../parts/deleted-list.tsx';
import { EmptyState } from '../../parts/empty-state.tsx';
import { ReplayOffer } from '../../parts/replay-offer.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { SessionDialog } from '../session/session-dialog.tsx';

/** Every session, newest first, by month. */
export default function SessionsPage({ query }: PageProps) {
  const athlete = query.get('athlete_id');
  const group = query.get('group_id');
  const filter = new URLSearchParams();
  if (athlete) filter.set('athlete_id', athlete);
  if (group) filter.set('group_id', group);
  const text = filter.toString();
  const sessions = useResource<SessionList>(`${paths.sessions}${text ? `?${text}` : ''}`);
  const directory = useDirectory();
  const [adding, setAdding] = useState(false);

  return (
    <>
      <div class="page-head">
        <h1>Sessions</h1>
        <div class="actions">
          <button type="button" onClick={() => setAdding(true)}>
            New session
          </button>
          <a class="button primary" href="#/files">
            Files in
          </a>
        </div>
      </div>
      <DemoNote onProgress={() => void sessions.reload()} />
      {text === '' && sessions.value && <ReplayOffer sessions={sessions.value.items} />}
      <div class="field-grid no-print">
        <SelectField
          label="Athlete"
          value={athlete ?? ''}
          options={[
            { value: '', label: 'all athletes' },
            ...(directory.athletes.value?.items ?? []).map(({ athlete_id, name }) => ({
              value: String(athlete_id),
              label: name,
            })),
          ]}
          onChange={(value) => setQuery('athlete_id', value || null)}
        />
        <SelectField
          label="Group"
          value={group ?? ''}
          options={[
            { value: '', label: 'all groups' },
            ...(directory.groups.value?.items ?? []).map(({ group_id, name }) => ({
              value: String(group_id),
              label: name,
            })),
          ]}
          onChange={(value) => setQuery('group_id', value || null)}
        />
      </div>
      <ResourceView resource={sessions} name="sessions">
        {({ items }) =>
          items.length === 0 ? (
            <NoSessions filtered={text !== ''} />
          ) : (
            <SessionMonths sessions={items} directory={directory} />
          )
        }
      </ResourceView>
      <DeletedList<Session>
        what="sessions"
        path={paths.sessions}
        id={({ session_id }) => session_id}
        name={({ title }) => title || 'Session'}
        detail={({ session_date, repetition_count }) =>
          `${formatDate(session_date)}, ${count(repetition_count, 'repetition')}`
        }
        onRestored={sessions.reload}
      />
      <SessionDialog
        open={adding}
        directory={directory}
        onClose={() => setAdding(false)}
        onSaved={(session) => go(paths.session(session.session_id))}
      />
    </>
  );
}

function SessionMonths({ sessions, directory }: { sessions: Session[]; directory: Directory }) {
  const months = new Map<string, Session[]>();
  for (const session of [...sessions].sort((a, b) => b.session_date.localeCompare(a.session_date))) {
    const month = session.session_date.slice(0, 7);
    months.set(month, [...(months.get(month) ?? []), session]);
  }
  return (
    <>
      {[...months].map(([month, list]) => (
        <section key={month} class="month">
          <h2>{formatMonth(month)}</h2>
          <ul class="lines">
            {list.map((session) => (
              <li key={session.session_id}>
                <SessionLine session={session} directory={directory} />
              </li>
            ))}
          </ul>
        </section>
      ))}
    </>
  );
}

function SessionLine({ session, directory }: { session: Session; directory: Directory }) {
  const who =
    session.group_id !== null ? directory.groupName(session.group_id) : directory.athleteName(session.athlete_id);
  const open = session.repetition_count - session.analysed_count;
  return (
    <a class="line" href={`#${paths.session(session.session_id)}`}>
      <span class="line-lead">{formatDay(session.session_date)}</span>
      <span class="line-main">
        <strong>{session.title || 'Session'}</strong>
        <span class="quiet">{[who, session.place].filter(Boolean).join(', ')}</span>
      </span>
      <span class="line-end">
        {session.repetition_count === 0 ? 'no repetitions yet' : count(session.repetition_count, 'repetition')}
        <span class="quiet">
          {count(session.athlete_ids.length, 'athlete')}
          {open > 0 && `, ${open} without a result`}
        </span>
      </span>
    </a>
  );
}

function NoSessions({ filtered }: { filtered: boolean }) {
  if (filtered) {
    return (
      <EmptyState title="No session fits">
        <p>No session of this athlete or group is stored. Choose another, or all.</p>
      </EmptyState>
    );
  }
  return (
    <EmptyState title="No sessions yet">
      <p>A session holds one day's repetitions. Every contact of every repetition will be found from here.</p>
      <ol>
        <li>Fasten a sensor to each shoe or shank and record the repetition, standing still before the start.</li>
        <li>
          Bring the two files here under <a href="#/files">Files in</a>. The session is made on the way.
        </li>
        <li>Look at each contact; from the second repetition on, against what is normal for the athlete.</li>
      </ol>
    </EmptyState>
  );
}
