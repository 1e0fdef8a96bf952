import { useEffect, useState } from 'preact/hooks';
import type { Fault } from '../../shared/fault.ts';
import type { Session, SessionList, SessionWithRepetitions } from '../../shared/schemas/session.ts';
import { paths } from '../api.ts';
import { client, faultOf } from '../client.ts';
import { type Resource, useResource } from './use-resource.ts';

export interface PagedSessions {
  newest: Resource<SessionList>;
  /** Newest first, as far as they were asked for. */
  sessions: Session[];
  /** How many of those before are not shown yet. */
  earlier: number;
  showEarlier: () => Promise<void>;
  fault: Fault | null;
}

/**
 * Sessions page by page, newest first.
 * @param filter `athlete_id` and `group_id` as a query; empty for all
 */
export function usePagedSessions(filter: string): PagedSessions {
  const pathOf = (offset: number) => `${paths.latestSessions}&offset=${offset}${filter && `&${filter}`}`;
  const newest = useResource<SessionList>(pathOf(0));
  const [before, setBefore] = useState<Session[]>([]);
  const [fault, setFault] = useState<Fault | null>(null);
  useEffect(() => setBefore([]), [filter]);
  const sessions = withoutRepeats([...(newest.value?.items ?? []), ...before]);
  const earlier = Math.max(0, (newest.value?.total ?? 0) - sessions.length);
  return {
    newest,
    sessions,
    earlier,
    fault,
    async showEarlier() {
      try {
        const { items } = await client.get<SessionList>(pathOf(sessions.length));
        setBefore([...before, ...items]);
        setFault(null);
      } catch (error) {
        setFault(faultOf(error));
      }
    },
  };
}

/** A session that came in meanwhile moves the others on: one may come twice. */
function withoutRepeats(sessions: Session[]): Session[] {
  return [...new Map(sessions.map((session) => [session.session_id, session])).values()];
}

/**
 * The newest sessions, and the one that is chosen already where it is older.
 * @param chosen_id as a form has it; empty for none
 */
export function useSessionsToChoose(chosen_id: string): { sessions: Session[]; reload: () => Promise<void> } {
  const newest = useResource<SessionList>(paths.sessionsToChoose);
  const items = newest.value?.items ?? [];
  const is_listed = items.some(({ session_id }) => String(session_id) === chosen_id);
  const older = useResource<SessionWithRepetitions>(
    newest.value !== null && chosen_id !== '' && !is_listed ? paths.session(chosen_id) : null,
  );
  return { sessions: older.value ? [...items, older.value] : items, reload: newest.reload };
}
