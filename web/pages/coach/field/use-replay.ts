import { useRef } from 'preact/hooks';
import type { ContactsEvent } from '../../../../shared/schemas/capture.ts';
import { useCapture } from '../../live/use-capture.ts';

export interface Replay {
  /** Stored repetitions that have had their result again, in the order they ended; they stay when the replay is over. */
  played: number[];
  total: number | null;
  /** True while this session is being played. */
  running: boolean;
  /** Contacts of whoever runs just now. */
  now: ContactsEvent[];
}

/** Follows the replay of a session. */
export function useReplay(session_id: string): Replay {
  const { state, running } = useCapture();
  const last = useRef<{ played: number[]; total: number | null }>({ played: [], total: null });
  const capture = state?.capture ?? null;
  const replay = capture?.kind === 'replay' && String(capture.session_id) === session_id ? capture.replay : null;
  if (replay) last.current = { played: replay.repetition_ids, total: replay.total };
  return { ...last.current, running: replay !== null, now: replay ? running : [] };
}
