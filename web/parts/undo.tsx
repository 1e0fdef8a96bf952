import { commonWords } from '../../shared/messages/en/view/common.ts';
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { speech, phrasesOf } from '../app/language.ts';
import { faultOf } from '../client.ts';

const common = phrasesOf('common', commonWords);

interface Undoable {
  /** What happened, in the past tense: 'Repetition 3 deleted'. */
  message: string;
  undo: () => Promise<void>;
}

const current = signal<(Undoable & { id: number; failed?: string }) | null>(null);
let count = 0;
const SHOWN_MS = 20_000;

/** Says what was just deleted or changed and offers to take it back. */
export function offerUndo(message: string, undo: () => Promise<void>): void {
  count += 1;
  current.value = { id: count, message, undo };
}

/** Lies above the navigation; one at a time, the newest wins. Everything deleted can also be restored later. */
export function UndoBar() {
  const shown = current.value;
  useEffect(() => {
    if (!shown) return;
    const timer = setTimeout(() => {
      if (current.peek()?.id === shown.id) current.value = null;
    }, SHOWN_MS);
    return () => clearTimeout(timer);
  }, [shown]);

  return (
    <div class="undo-region" role="status" aria-live="polite">
      {shown && (
        <div class="undo">
          <span>{shown.failed ?? shown.message}</span>
          <button
            type="button"
            onClick={async () => {
              try {
                await shown.undo();
                current.value = null;
              } catch (error) {
                current.value = { ...shown, failed: speech.value.tell(faultOf(error)).message };
              }
            }}
          >
            {common('undo')}
          </button>
          <button type="button" class="plain" onClick={() => (current.value = null)}>
            {common('close')}
          </button>
        </div>
      )}
    </div>
  );
}
