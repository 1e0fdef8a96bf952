import '../coach.css';
import { useEffect } from 'preact/hooks';
import type { SessionList } from '../../../../shared/schemas/session.ts';
import { paths } from '../../../api.ts';
import { formatDate, localToday } from '../../../app/format.ts';
import { useResource } from '../../../app/use-resource.ts';
import { EmptyState } from '../../../parts/empty-state.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';

/** Leads to today's session, or lets the coach choose one. */
export default function FieldHomePage() {
  const sessions = useResource<SessionList>(paths.sessions);
  const today = localToday();
  const items = [...(sessions.value?.items ?? [])].sort((a, b) => b.session_date.localeCompare(a.session_date));
  const todays = items.filter((session) => session.session_date === today);
  useEffect(() => {
    if (todays.length === 1) window.location.replace(`#/field/${todays[0].session_id}`);
  }, [todays]);
  return (
    <>
      <h1>Field</h1>
      <ResourceView resource={sessions} name="sessions">
        {() =>
          items.length === 0 ? (
            <EmptyState title="No session yet">
              <p>
                On the field you see each repetition the moment it is in, against what is normal for the athlete. That
                needs a session: plan one, or bring files in.
              </p>
              <p class="actions">
                <a class="button primary" href="#/plan">
                  Plan a session
                </a>
              </p>
            </EmptyState>
          ) : (
            <>
              <p>
                {todays.length > 1 ? 'Several sessions today: which one?' : 'No session today. Which one to look at?'}
              </p>
              <ul class="lines">
                {items.slice(0, 12).map((session) => (
                  <li key={session.session_id}>
                    <a class="line athlete-line" href={`#/field/${session.session_id}`}>
                      <span class="line-main">
                        <strong>{session.title || 'Session'}</strong>
                        <span class="quiet">{formatDate(session.session_date)}</span>
                      </span>
                      <span class="line-end">{session.repetition_count} repetitions</span>
                    </a>
                  </li>
                ))}
              </ul>
              <p class="actions">
                <a class="button primary" href="#/plan">
                  Plan a session
                </a>
              </p>
            </>
          )
        }
      </ResourceView>
    </>
  );
}
