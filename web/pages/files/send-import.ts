import { signal } from '@preact/signals';
import { api } from '../../api.ts';
import type { UploadOptions } from '../../client.ts';
import { localToday } from '../../app/format.ts';
import { type CourseDraft, splitTexts } from '../../parts/course-draft.ts';
import type { RecordingDraft, SentImport } from './recording-draft.ts';
import { Slots } from './slots.ts';
import type { WhoDraft } from './who-fields.tsx';

/** One after the other: repetitions get their numbers in the order in which their files were given. */
const slots = new Slots(1);

/** Sessions made by this page, by date, so that several recordings sent at once share one. */
const made = new Map<string, Promise<number>>();

/**
 * Starts sending the files of one recording.
 * @param onNewSession called when a session was made on the way
 */
export function sendImport(
  draft: RecordingDraft,
  who: WhoDraft,
  course: CourseDraft,
  onNewSession: () => void,
): SentImport {
  const travelled = signal<number | null>(null);
  const stop = new AbortController();
  const turn = slots.acquire();
  const release = () => void turn.then((giveBack) => giveBack());
  const onProgress = (share: number) => {
    travelled.value = share;
  };
  const begun = turn.then(() => {
    travelled.value = 0;
    return send(draft, who, course, onNewSession, { onProgress, signal: stop.signal });
  });
  return { key: draft.key, draft, begun, travelled, release, abort: () => stop.abort() };
}

/** @throws ApiFault when the server refuses the form or a file, or the sending was stopped */
async function send(
  draft: RecordingDraft,
  who: WhoDraft,
  course: CourseDraft,
  onNewSession: () => void,
  options: UploadOptions,
): Promise<number> {
  const session_id = who.session_id ? Number(who.session_id) : await todaysSession(onNewSession);
  const form = new FormData();
  // Fields go first, so that a form that is refused is refused before the files have travelled.
  const fields: Record<string, string> = {
    athlete_id: draft.athlete_id || who.athlete_id,
    session_id: String(session_id),
    mounting: who.mounting,
    course: course.distance.trim() && `${course.distance.trim()}${course.unit}`,
    effort_percent: draft.effort.trim() || course.effort.trim(),
    time: withUnit(draft.time.trim() || course.time.trim(), 's'),
    splits: splitTexts(course.splits).join(','),
    timing_method: course.method,
    clock: course.clock,
    start_style: course.start,
    belt_speed: withUnit(course.belt.trim(), 'mps'),
    layout: layoutText(draft, draft.both),
    layout_left: layoutText(draft, draft.left),
    layout_right: layoutText(draft, draft.right),
  };
  for (const [name, value] of Object.entries(fields)) if (value) form.append(name, value);
  if (draft.left) form.append('left', draft.left);
  if (draft.right) form.append('right', draft.right);
  if (draft.both) form.append('file', draft.both);
  return (await api.startImport(form, options)).import_id;
}

/** How a file that was put right is to be read, as JSON; empty where the program finds it. */
function layoutText(draft: RecordingDraft, file: File | null): string {
  const layout = file && draft.layouts.get(file);
  return layout ? JSON.stringify(layout) : '';
}

/** `5.21` as `5.21s`; what carries a unit already stays. */
function withUnit(text: string, unit: string): string {
  return /^[\d.,]+$/.test(text) ? `${text.replace(',', '.')}${unit}` : text;
}

function todaysSession(onNewSession: () => void): Promise<number> {
  const date = localToday();
  const known = made.get(date);
  if (known) return known;
  const making = api.addSession({ session_date: date }).then((session) => {
    onNewSession();
    return session.session_id;
  });
  made.set(date, making);
  making.catch(() => made.delete(date));
  return making;
}
