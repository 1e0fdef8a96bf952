import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import type { FieldView } from '../../../../shared/schemas/coach/field-view.ts';
import type { Fault } from '../../../../shared/fault.ts';
import { ApiFault, client, faultOf } from '../../../client.ts';
import { coachPaths } from '../coach-api.ts';
import { keep, readKept } from '../kept.ts';
import { flushRatings, forgetSent, sentRatings } from './rating-outbox.ts';

/** Pause between two questions to the server, and the longest pause while it does not answer. */
const POLL_MS = 2000;
const POLL_LONGEST_MS = 15_000;

export interface FieldState {
  view: FieldView | null;
  /** When the view shown was answered, by this device's clock; null before the first answer. */
  answered_ms: number | null;
  /** Why the last question failed; null while the network is fine. */
  fault: Fault | null;
  reload: () => void;
}

interface Kept {
  view: FieldView;
  answered_ms: number;
}

/**
 * The field view, asked for again every two seconds while the page is visible. The last answer is kept on the device:
 * without network it stays on screen, with its age, and questions go on at longer pauses until one is answered.
 */
export function useField(session_id: string): FieldState {
  const name = `field.${session_id}`;
  const [kept, setKept] = useState<Kept | null>(() => readKept<Kept>(name));
  const [fault, setFault] = useState<Fault | null>(null);
  const ask = useRef<() => void>(() => {});

  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let failures = 0;
    let open = true;
    let asking = false;
    const question = async () => {
      clearTimeout(timer);
      if (asking || !open) return;
      asking = true;
      try {
        await flushRatings();
        const sent = sentRatings.peek();
        const view = await client.get<FieldView>(coachPaths.field(session_id));
        if (!open) return;
        forgetSent(sent);
        failures = 0;
        const next = { view, answered_ms: Date.now() };
        keep(name, next);
        setKept(next);
        setFault(null);
      } catch (error) {
        if (!open) return;
        failures += 1;
        setFault(faultOf(error));
        if (error instanceof ApiFault && error.status === 404) return;
      } finally {
        asking = false;
      }
      if (open && document.visibilityState === 'visible') {
        timer = setTimeout(question, Math.min(POLL_LONGEST_MS, POLL_MS * 1.7 ** failures));
      }
    };
    const now = () => void question();
    ask.current = now;
    const onVisible = () => document.visibilityState === 'visible' && now();
    document.addEventListener('visibilitychange', onVisible);
    window.addEventListener('online', now);
    now();
    return () => {
      open = false;
      clearTimeout(timer);
      document.removeEventListener('visibilitychange', onVisible);
      window.removeEventListener('online', now);
    };
  }, [session_id, name]);

  const reload = useCallback(() => ask.current(), []);
  return { view: kept?.view ?? null, answered_ms: kept?.answered_ms ?? null, fault, reload };
}
