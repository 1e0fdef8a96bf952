import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import type { FieldView } from '../../../../shared/schemas/coach/field-view.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { ApiFault, client, faultOf } from '../../../client.ts';
import { coachPaths } from '../coach-api.ts';
import { keep, readKept } from '../kept.ts';
import { listenToField } from './listen-to-field.ts';
import { flushTimes } from './hand-times.ts';
import { flushPhotos } from './photo-outbox.ts';
import { flushRatings, forgetSent, sentRatings } from './rating-outbox.ts';

/** While the server cannot be listened to: pause between two questions, and the longest pause while none is answered. */
const POLL_MS = 2000;
const POLL_LONGEST_MS = 15_000;
/** While it can be, ms: a question now and then all the same, so that nothing ever stands still for long. */
const LISTENING_MS = 60_000;

/** Which session was looked at last on this device: without network its results can still be opened. */
export const LAST_FIELD = 'field.last';

export interface FieldState {
  view: FieldView | null;
  /** When the view shown was answered, by this device's clock; null before the first answer. */
  answered_ms: number | null;
  /** Why the last question failed; null while the network is fine. */
  fault: Fault | null;
  /** How far the server's clock is ahead of this device's, ms. */
  ahead_ms: number;
  reload: () => void;
}

interface Kept {
  view: FieldView;
  answered_ms: number;
  ahead_ms?: number;
}

/**
 * The field view, asked for again whenever the server says that it changed; while it cannot be listened to, every two seconds.
 * Only while the page is visible. The last answer is kept on the device: without network it stays on screen, with its age, and
 * questions go on at longer pauses until one is answered.
 * @param only in a replay: the repetitions that have been played; without it all
 */
export function useField(session_id: string, only?: readonly number[]): FieldState {
  const played = only?.join(',');
  const name = played === undefined ? `field.${session_id}` : `replay.${session_id}`;
  const [kept, setKept] = useState<Kept | null>(() => (only ? null : readKept<Kept>(name)));
  const [fault, setFault] = useState<Fault | null>(null);
  const ask = useRef<() => void>(() => {});
  const shown = useRef(kept);
  const onlyNow = useRef(only);
  onlyNow.current = only;

  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let failures = 0;
    let open = true;
    let asking = false;
    let again = false;
    const question = async () => {
      clearTimeout(timer);
      if (!open) return;
      // What was said while an answer was on its way may not be in it.
      again = asking;
      if (asking) return;
      asking = true;
      try {
        await flushRatings();
        await flushPhotos();
        if (!onlyNow.current) await flushTimes(shown.current?.view ?? null, shown.current?.ahead_ms ?? 0);
        const sent = sentRatings.peek();
        const view = await client.get<FieldView>(coachPaths.field(session_id, onlyNow.current));
        if (!open) return;
        forgetSent(sent);
        failures = 0;
        const next = { view, answered_ms: Date.now(), ahead_ms: Date.parse(view.answered_utc) - Date.now() };
        if (!onlyNow.current) {
          keep(name, next);
          keep(LAST_FIELD, session_id);
        }
        shown.current = next;
        setKept(next);
        setFault(null);
        // A time that waited for this very result is sent at once; the server then says that the view changed.
        if (!onlyNow.current) await flushTimes(view, next.ahead_ms);
      } catch (error) {
        if (!open) return;
        failures += 1;
        setFault(faultOf(error));
        if (error instanceof ApiFault && error.status === 404) return listener.stop();
      } finally {
        asking = false;
      }
      if (!open || document.visibilityState !== 'visible') return;
      if (again && failures === 0) return now();
      const pause = listener.listening() && failures === 0 ? LISTENING_MS : POLL_MS * 1.7 ** failures;
      timer = setTimeout(question, Math.min(failures === 0 ? LISTENING_MS : POLL_LONGEST_MS, pause));
    };
    const now = () => void question();
    const listener = listenToField(session_id, {
      onChanged: now,
      onBeat: () => setKept((old) => (old && failures === 0 ? { ...old, answered_ms: Date.now() } : old)),
      onLost: now,
    });
    ask.current = now;
    const onVisible = () => {
      if (document.visibilityState !== 'visible') return listener.stop();
      listener.start();
      now();
    };
    document.addEventListener('visibilitychange', onVisible);
    window.addEventListener('online', now);
    window.addEventListener('offline', now);
    listener.start();
    now();
    return () => {
      open = false;
      clearTimeout(timer);
      listener.stop();
      document.removeEventListener('visibilitychange', onVisible);
      window.removeEventListener('online', now);
      window.removeEventListener('offline', now);
    };
  }, [session_id, name]);

  useEffect(() => ask.current(), [played]);

  const reload = useCallback(() => ask.current(), []);
  return {
    view: kept?.view ?? null,
    answered_ms: kept?.answered_ms ?? null,
    ahead_ms: kept?.ahead_ms ?? 0,
    fault,
    reload,
  };
}
