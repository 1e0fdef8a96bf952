import { FIELD_BEAT_MS } from '../../../../shared/field-events.ts';
import { coachPaths } from '../coach-api.ts';

/** A dropped mobile connection is not told to the page: silence for this long means it is gone. */
const SILENCE_MS = 3 * FIELD_BEAT_MS;
/** Before the connection is tried anew, ms. */
const RETRY_MS = 5000;

interface Told {
  /** The view is to be asked for again. */
  onChanged: () => void;
  /** Nothing changed, and the server is there. */
  onBeat: () => void;
  /** The connection is gone; it is tried anew by itself. */
  onLost: () => void;
}

export interface FieldListener {
  listening(): boolean;
  start(): void;
  stop(): void;
}

/** Listens to what the server says of a session's field view, over server-sent events. */
export function listenToField(session_id: string, { onChanged, onBeat, onLost }: Told): FieldListener {
  let source: EventSource | null = null;
  let live = false;
  let timer: ReturnType<typeof setTimeout> | undefined;

  function heard() {
    live = true;
    clearTimeout(timer);
    timer = setTimeout(lost, SILENCE_MS);
  }
  function lost() {
    const was = live;
    stop();
    timer = setTimeout(start, RETRY_MS);
    if (was) onLost();
  }
  function start() {
    if (source) return;
    clearTimeout(timer);
    source = new EventSource(coachPaths.fieldEvents(session_id));
    source.addEventListener('changed', () => {
      heard();
      onChanged();
    });
    source.addEventListener('beat', () => {
      heard();
      onBeat();
    });
    // The browser would try again by itself, but says nothing while it does.
    source.onerror = lost;
    timer = setTimeout(lost, SILENCE_MS);
  }
  function stop() {
    clearTimeout(timer);
    source?.close();
    source = null;
    live = false;
  }
  return { listening: () => live, start, stop };
}
