import { useState } from 'preact/hooks';
import type { SessionList } from '../../../shared/schemas/session.ts';
import { api, paths } from '../../api.ts';
import { count } from '../../app/describe.ts';
import { formatDate } from '../../app/format.ts';
import { useResource } from '../../app/use-resource.ts';
import { ResourceView } from '../../parts/resource-view.tsx';

/** Sessions that were deleted, for as long as somebody may want one back. */
export function DeletedSessions({ onRestored }: { onRestored: () => void }) {
  const [open, setOpen] = useState(false);
  const deleted = useResource<SessionList>(open ? `${paths.sessions}?deleted=true` : null);
  async function restore(session_id: number) {
    await api.restoreSession(session_id);
    await deleted.reload();
    onRestored();
  }
  return (
    <details class="no-print" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Deleted sessions</summary>
      {open && (
        <ResourceView resource={deleted} name="deleted sessions">
          {({ items }) =>
            items.length === 0 ? (
              <p>None. What is deleted can be restored from here.</p>
            ) : (
              <ul class="lines">
                {items.map((session) => (
                  <li key={session.session_id} class="line">
                    <span class="line-main">
                      <strong>{session.title || 'Session'}</strong>
                      <span class="quiet">
                        {formatDate(session.session_date)}, {count(session.repetition_count, 'repetition')}
                      </span>
                    </span>
                    <button type="button" onClick={() => void restore(session.session_id)}>
                      Restore
                      <span class="visually-hidden">
                        {' '}
                        {session.title} of {formatDate(session.session_date)}
                      </span>
                    </button>
                  </li>
                ))}
              </ul>
            )
          }
        </ResourceView>
      )}
    </details>
  );
}
