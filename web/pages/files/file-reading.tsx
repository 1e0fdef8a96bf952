import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Layout, LayoutCorrection } from '../../../shared/schemas/layout.ts';
import type { LayoutPreview } from '../../../shared/schemas/layout-preview.ts';
import type { Mounting, Side } from '../../../shared/words.ts';
import { LayoutEditor } from '../../parts/layout-editor/layout-editor.tsx';
import { ReadingStatus } from '../../parts/layout-editor/reading-status.tsx';
import { useLayoutPreview } from '../../parts/layout-editor/use-layout-preview.ts';

const t = phrasesOf('files', filesWords);

interface FileReadingProps {
  file: File;
  side: Side | null;
  mounting: Mounting;
  /** How it was put right before, as when the sides were swapped. */
  layout: Layout | null;
  /** How the other file of the recording was put right: taken over where this one has the same columns. */
  other: Layout | null;
  /**
   * Told how the file is to be read: undefined as the program finds by itself, null while it was changed but cannot be read so.
   */
  onUse: (layout: Layout | null | undefined) => void;
}

/** What was understood about a file before anything is measured, in a line; its columns, to be put right, one press away. */
export function FileReading({ file, side, mounting, layout, other, onUse }: FileReadingProps) {
  const [open, setOpen] = useState(false);
  const [begun, setBegun] = useState(layout);
  const work = useLayoutPreview({ file, mounting, side, layout: begun });
  const followed = useRef<Layout | null>(null);
  const used = work.changed ? work.layout : (begun ?? undefined);

  // What is used is told once, when it changes.
  useEffect(() => onUse(used), [used]);

  // The other file is followed when it changes, or once this one is known.
  useEffect(() => {
    const own = work.changed && followed.current === null;
    if (!other || own || followed.current === other || !work.found || !sameColumns(work.found, other)) return;
    followed.current = other;
    work.answer(other as LayoutCorrection);
  }, [other, work.found]);

  return (
    <div class="file-reading">
      {!open && <ReadingStatus work={work} />}
      <div class="button-row">
        <button type="button" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? t('close_the_columns') : t('look_at_the_columns')}
          <span class="visually-hidden">{t('of', { name: file.name })}</span>
        </button>
        {used !== undefined && !open && (
          <button
            type="button"
            class="plain"
            onClick={() => {
              followed.current = other;
              if (begun) setBegun(null);
              else work.reset();
            }}
          >
            {t('undo_my_changes')}
          </button>
        )}
      </div>
      {open && <LayoutEditor work={work} fileName={file.name} side={side} />}
    </div>
  );
}

function sameColumns({ columns, delimiter }: LayoutPreview, layout: Layout): boolean {
  return (
    columns.length === layout.column_count &&
    delimiter === layout.text.delimiter &&
    columns.every(({ name }, at) => name === (layout.column_names[at] ?? ''))
  );
}
