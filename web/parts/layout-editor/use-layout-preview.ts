import { useEffect, useRef, useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { Layout, LayoutCorrection, TextShape } from '../../../shared/schemas/layout.ts';
import type { LayoutPreview } from '../../../shared/schemas/layout-preview.ts';
import type { Mounting, Side } from '../../../shared/words.ts';
import { api } from '../../api.ts';
import { faultOf } from '../../client.ts';
import { correctionOf } from './correction-of.ts';
import { draftOf } from './layout-draft.ts';
import type { LayoutDraft } from './draft.ts';
import { missingOf } from './missing-of.ts';

/** A layout is found from this much of a file. */
const BEGINNING_BYTES = 4 << 20;
/** A workbook is a zip file, which cannot be opened by its beginning; the server takes so much of one. */
const WORKBOOK_BYTES = 32 << 20;
const WORKBOOK_NAME = /\.xls[xm]$/i;
/** While somebody types, ms. */
const PAUSE_MS = 250;

export interface PreviewContext {
  file: File;
  mounting: Mounting;
  /** Null where the file says itself, or holds both. */
  side: Side | null;
  /** A layout to begin with. */
  layout?: Layout | null;
}

export interface LayoutWork {
  /** What came out last; null until the first answer. */
  preview: LayoutPreview | null;
  /** What the file was taken for before anybody changed anything. */
  found: LayoutPreview | null;
  draft: LayoutDraft | null;
  /** How lines and cells are parted, as far as that was told. */
  text: Partial<TextShape>;
  /** Still to be said before the file can be read as drafted. */
  missing: string;
  changed: boolean;
  busy: boolean;
  /** The server or the network refused. */
  fault: Fault | null;
  change(draft: LayoutDraft): void;
  changeText(text: Partial<TextShape>): void;
  /** Takes one of the readings that were offered. */
  answer(correction: LayoutCorrection): void;
  /** What the file is read as now; null while it cannot be read. */
  layout: Layout | null;
  /** Back to what the program finds by itself. */
  reset(): void;
}

/** Follows the reading of a file while it is corrected: every change is read anew by the server, and shown. */
export function useLayoutPreview({ file, mounting, side, layout }: PreviewContext): LayoutWork {
  const [preview, setPreview] = useState<LayoutPreview | null>(null);
  const [found, setFound] = useState<LayoutPreview | null>(null);
  const [draft, setDraft] = useState<LayoutDraft | null>(null);
  const [told, setTold] = useState<LayoutCorrection>({});
  const [changed, setChanged] = useState(false);
  const [busy, setBusy] = useState(true);
  const [fault, setFault] = useState<Fault | null>(null);
  const round = useRef(0);
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);

  async function read(correction: Layout | LayoutCorrection, then: (answer: LayoutPreview) => void) {
    const own = ++round.current;
    clearTimeout(timer.current);
    setBusy(true);
    try {
      const answer = await api.previewLayout(formOf(file, mounting, side, correction));
      if (own !== round.current) return;
      setFault(null);
      setPreview(answer);
      then(answer);
    } catch (error) {
      if (own === round.current) setFault(faultOf(error));
    }
    if (own === round.current) setBusy(false);
  }

  function begin() {
    setChanged(false);
    setTold({});
    void read(layout ?? {}, (answer) => {
      setFound(answer);
      setDraft(draftOf(answer));
    });
  }

  // A file is read anew when it, its side or its place changes.
  useEffect(() => {
    begin();
    return () => {
      round.current++;
      clearTimeout(timer.current);
    };
  }, [file, mounting, side, layout]);

  function tell(correction: LayoutCorrection) {
    setTold(correction);
    setChanged(true);
    void read(correction, (answer) => setDraft(draftOf(answer)));
  }

  const text = told.text ?? {};
  const missing = draft ? missingOf(draft) : '';
  return {
    preview,
    found,
    draft,
    text,
    missing,
    changed,
    busy,
    fault,
    layout: missing === '' && !busy && preview ? preview.layout : null,
    change(next) {
      setDraft(next);
      setChanged(true);
      clearTimeout(timer.current);
      if (missingOf(next) !== '') return;
      // From now on what came out last is no longer what is drafted: it must not be kept or measured with.
      setBusy(true);
      const parted = { ...layout?.text, ...text };
      timer.current = setTimeout(() => void read(correctionOf(next, parted), () => {}), PAUSE_MS);
    },
    changeText: (next) => tell({ text: { ...text, ...next } }),
    answer: (correction) =>
      tell({
        ...told,
        ...correction,
        time: { ...told.time, ...correction.time },
        text: { ...text, ...correction.text },
      }),
    reset: begin,
  };
}

function formOf(file: File, mounting: Mounting, side: Side | null, correction: Layout | LayoutCorrection): FormData {
  const form = new FormData();
  form.append('mounting', mounting);
  if (side) form.append('side', side);
  if (Object.keys(correction).length > 0) form.append('layout', JSON.stringify(correction));
  if (file.size > BEGINNING_BYTES) form.append('part', 'true');
  const sent = WORKBOOK_NAME.test(file.name) ? WORKBOOK_BYTES : BEGINNING_BYTES;
  form.append('file', file.slice(0, sent), file.name);
  return form;
}
