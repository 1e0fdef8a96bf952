import { phrasesOf } from '../app/language.ts';
import { commonWords } from '../../shared/messages/en/view/common.ts';
import type { ComponentChildren } from 'preact';
import { useEffect, useId, useRef } from 'preact/hooks';

const common = phrasesOf('common', commonWords);

interface DialogProps {
  title: string;
  open: boolean;
  onClose: () => void;
  children: ComponentChildren;
}

/** The browser's own modal dialog: focus is kept inside, Escape closes, focus returns to where it was. */
export function Dialog({ title, open, onClose, children }: DialogProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const element = dialog.current;
    if (!element) return;
    if (open && !element.open) element.showModal();
    if (!open && element.open) element.close();
  }, [open]);
  return (
    <dialog ref={dialog} aria-labelledby={id} onClose={onClose}>
      <div class="dialog-head">
        <h2 id={id}>{title}</h2>
        <button type="button" class="plain" onClick={onClose}>
          {common('close')}
        </button>
      </div>
      {open && children}
    </dialog>
  );
}
