import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import type { Fault } from '../../shared/fault.ts';
import { client, faultOf } from '../client.ts';

export interface Resource<T> {
  /** The last answer; kept on screen while a newer one is fetched or when the network is gone. */
  value: T | null;
  fault: Fault | null;
  loading: boolean;
  reload: () => Promise<void>;
  /** Replaces the value, for instance with the answer to a change. */
  set: (value: T) => void;
}

/** Answers seen in this visit, so that going back shows at once what was there and then refreshes it. */
const seen = new Map<string, unknown>();
const SEEN_LIMIT = 200;

function remember(path: string, value: unknown): void {
  seen.delete(path);
  seen.set(path, value);
  if (seen.size > SEEN_LIMIT) seen.delete(seen.keys().next().value as string);
}

/**
 * Reads a resource of the API and keeps it fresh while its page is open.
 * @param path behind `/api`; null reads nothing
 */
export function useResource<T>(path: string | null): Resource<T> {
  const [state, setState] = useState<{ path: string | null; value: T | null; fault: Fault | null; loading: boolean }>({
    path,
    value: path === null ? null : ((seen.get(path) as T | undefined) ?? null),
    fault: null,
    loading: path !== null,
  });
  const latest = useRef(path);
  latest.current = path;

  const reload = useCallback(async () => {
    if (path === null) return;
    setState((old) => ({
      path,
      value: old.path === path ? old.value : ((seen.get(path) as T | undefined) ?? null),
      fault: null,
      loading: true,
    }));
    try {
      const value = await client.get<T>(path);
      remember(path, value);
      if (latest.current === path) setState({ path, value, fault: null, loading: false });
    } catch (error) {
      if (latest.current === path) setState((old) => ({ ...old, fault: faultOf(error), loading: false }));
    }
  }, [path]);

  useEffect(() => {
    void reload();
  }, [reload]);

  const set = useCallback(
    (value: T) => {
      if (path === null) return;
      remember(path, value);
      setState({ path, value, fault: null, loading: false });
    },
    [path],
  );

  const fits = state.path === path;
  return {
    value: fits ? state.value : path === null ? null : ((seen.get(path) as T | undefined) ?? null),
    fault: fits ? state.fault : null,
    loading: fits ? state.loading : path !== null,
    reload,
    set,
  };
}
