import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { useRef, useState } from 'preact/hooks';
import type { Athlete } from '../../../shared/schemas/athlete.ts';
import { useDirectory } from '../../app/directory.ts';
import { preferences } from '../../app/preferences.ts';
import type { PageProps } from '../../app/router.ts';
import { useSessionsToChoose } from '../../app/use-sessions.ts';
import { type CourseDraft, EMPTY_COURSE } from '../../parts/course-draft.ts';
import { CourseFields } from '../../parts/course-fields.tsx';
import { DropArea } from './drop-area.tsx';
import { FileSetCard } from './file-set-card.tsx';
import { ImportCard } from './import-card.tsx';
import { type FileSet, pairFiles } from './pair-files.ts';
import { sendImport } from './send-import.ts';
import { TimingSection } from './timing-section.tsx';
import { WhoFields, type WhoDraft } from './who-fields.tsx';
import { namesOf, type RecordingDraft, type SentImport } from './recording-draft.ts';

const t = phrasesOf('files', filesWords);
const common = phrasesOf('common', commonWords);

let nextKey = 1;

/** Brings files in: drop them, say whose they are, see the result on the same page. */
export default function FilesPage({ query }: PageProps) {
  const directory = useDirectory();
  const [who, setWho] = useState<WhoDraft>({
    athlete_id: query.get('athlete_id') ?? '',
    session_id: query.get('session_id') ?? '',
    mounting: 'foot',
  });
  const { sessions, reload: reloadSessions } = useSessionsToChoose(who.session_id);
  const [course, setCourse] = useState<CourseDraft>({ ...EMPTY_COURSE, unit: preferences.peek().length });
  const [drafts, setDrafts] = useState<RecordingDraft[]>([]);
  const [sent, setSent] = useState<SentImport[]>([]);
  const [missing, setMissing] = useState('');
  const top = useRef<HTMLFormElement>(null);

  function add(files: File[]) {
    const sets = pairFiles(files).map((set) => ({
      ...set,
      key: nextKey++,
      athlete_id: athleteNamed(set, directory.athletes.value?.items ?? []),
      time: '',
      effort: '',
      layouts: new Map(),
    }));
    // One recording takes its athlete from the form, where it can be seen and changed.
    if (drafts.length === 0 && sets.length === 1) {
      if (!who.athlete_id) setWho({ ...who, athlete_id: sets[0].athlete_id });
      sets[0].athlete_id = '';
    }
    setDrafts((old) => joinHalves([...old, ...sets]));
    setMissing('');
  }

  function measure(event: Event) {
    event.preventDefault();
    if (drafts.length === 0) return setMissing(t('choose_or_drop_at_least'));
    if (!who.athlete_id && drafts.some((draft) => !draft.athlete_id))
      return setMissing(t('say_whose_recording_this_is'));
    const unfinished = drafts.flatMap(({ layouts }) => [...layouts]).find(([, layout]) => layout === null);
    if (unfinished) return setMissing(t('finish_the_columns_of_first', { name: unfinished[0].name }));
    setMissing('');
    const started = drafts.map((draft) => sendImport(draft, who, course, () => void reloadSessions()));
    setSent((old) => [...started.reverse(), ...old]);
    setDrafts([]);
  }

  /** Puts the files of an import back into the form, to be read in another way. */
  function takeBack(item: SentImport) {
    setSent((old) => old.filter((other) => other !== item));
    setDrafts((old) => [...old, { ...item.draft, key: nextKey++ }]);
    top.current?.scrollIntoView();
  }

  return (
    <>
      <h1>{common('files_in')}</h1>
      <p class="quiet">{t('two_sensor_files_of_one')}</p>
      <form onSubmit={measure} class="files-form" ref={top}>
        <DropArea onFiles={add} />
        {drafts.map((draft) => (
          <FileSetCard
            key={draft.key}
            draft={draft}
            several={drafts.length > 1}
            athletes={directory.athletes.value?.items ?? []}
            mounting={who.mounting}
            onChange={(changed) => setDrafts((old) => old.map((other) => (other.key === draft.key ? changed : other)))}
            onRemove={() => setDrafts(drafts.filter((other) => other.key !== draft.key))}
          />
        ))}
        <WhoFields who={who} onChange={setWho} directory={directory} sessions={sessions} />
        <CourseFields draft={course} onChange={setCourse} />
        <div class="actions">
          <button type="submit" class="primary big">
            {drafts.length > 1 ? t('measure_recordings', { n_drafts: drafts.length }) : t('measure')}
          </button>
        </div>
        <p role="alert" class="missing">
          {missing}
        </p>
      </form>
      <div aria-live="polite">
        {sent.map((item) => (
          <ImportCard key={item.key} sent={item} onTakenBack={() => takeBack(item)} />
        ))}
      </div>
      <TimingSection />
    </>
  );
}

/** The athlete whose name stands in the files' names; empty where none or several do. */
function athleteNamed(set: FileSet, athletes: Athlete[]): string {
  const plain = (text: string) => text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, ' ');
  const names = plain(namesOf(set).join(' '));
  const found = athletes.filter((athlete) => names.includes(plain(athlete.name).trim()));
  return found.length === 1 ? String(found[0].athlete_id) : '';
}

/** A lone left and a lone right that were dropped one after the other belong together. */
function joinHalves(drafts: RecordingDraft[]): RecordingDraft[] {
  const lonely = (draft: RecordingDraft, side: 'left' | 'right') =>
    draft[side] && !draft.both && !draft[side === 'left' ? 'right' : 'left'];
  const left = drafts.filter((draft) => lonely(draft, 'left'));
  const right = drafts.filter((draft) => lonely(draft, 'right'));
  if (left.length !== 1 || right.length !== 1) return drafts;
  return drafts
    .filter((draft) => draft !== right[0])
    .map((draft) =>
      draft === left[0]
        ? { ...draft, right: right[0].right, layouts: new Map([...draft.layouts, ...right[0].layouts]) }
        : draft,
    );
}
