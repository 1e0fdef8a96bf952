import type { Store } from '../../store/store.ts';
import { fieldView, writtenState } from './field-view.ts';

/** How often is looked whether something was written, ms: well below what a coach notices. */
const LOOK_MS = 300;

/**
 * Calls when what a field screen shows of a session has changed, by this program or another that writes to the database. Looking
 * costs two small questions to SQLite; the view is made anew only after a write, once for all who listen.
 * @param onGone called once when the session is no longer there; nothing more is looked at then
 * @returns ends it
 */
export function watchField(store: Store, session_id: number, onChange: () => void, onGone: () => void): () => void {
  const look = () => {
    const { answered_utc: _, ...view } = fieldView(store, session_id);
    return JSON.stringify(view);
  };
  let seen = writtenState(store);
  let last = look();
  const timer = setInterval(() => {
    try {
      const state = writtenState(store);
      if (state === seen) return;
      seen = state;
      const now = look();
      if (now === last) return;
      last = now;
      onChange();
    } catch {
      clearInterval(timer);
      onGone();
    }
  }, LOOK_MS);
  timer.unref();
  return () => clearInterval(timer);
}
