import type { Athlete, AthleteList } from '../shared/schemas/athlete.ts';
import type { GroupList } from '../shared/schemas/group.ts';
import type { Import, ImportAccepted, ImportFields } from '../shared/schemas/import.ts';
import type { AnalysisAnswer, Repetition, RepetitionChange } from '../shared/schemas/repetition.ts';
import type { LayoutPreview } from '../shared/schemas/layout-preview.ts';
import type { NewSavedLayout, SavedLayout, SavedLayoutChange } from '../shared/schemas/saved-layout.ts';
import type { NewSession, Session, SessionChange } from '../shared/schemas/session.ts';
import type { TimingAnswer } from '../shared/schemas/timing.ts';
import type { TimingMethod } from '../shared/words.ts';
import { preferences } from './app/preferences.ts';
import { client, type UploadOptions } from './client.ts';

/** Paths that pages read with `useResource`, and what each answers. */
export const paths = {
  athletes: '/athletes',
  groups: '/groups',
  sessions: '/sessions',
  /** Half a year of two evenings a week. */
  latestSessions: '/sessions?limit=52',
  /** As many as the server gives at once: ten years of two evenings a week. */
  sessionsToChoose: '/sessions?limit=1000',
  demo: '/demo',
  health: '/health',
  session: (session_id: number | string) => `/sessions/${session_id}`,
  repetition: (repetition_id: number | string) => `/repetitions/${repetition_id}`,
  judgements: (repetition_id: number | string) =>
    `/coach/repetitions/${repetition_id}/judgements?length=${preferences.value.length}`,
  analyses: (repetition_id: number | string) => `/repetitions/${repetition_id}/analyses`,
  raw: (recording_id: number) => `/api/recordings/${recording_id}/raw`,
  profile: (repetition_id: number | string) => `/repetitions/${repetition_id}/profile`,
  recording: (recording_id: number) => `/recordings/${recording_id}`,
  layouts: '/layouts',
  rejectedCsv: (import_id: number) => `/api/imports/${import_id}/rejected.csv`,
  figure: (repetition_id: number, quantity: string, by: 'step' | 'distance', form: 'svg' | 'pdf' | 'csv') =>
    `/api/repetitions/${repetition_id}/figure?quantity=${quantity}&by=${by}&form=${form}`,
  stepsCsv: (repetition_id: number | string) => `/api/repetitions/${repetition_id}/steps.csv`,
};

/** Changes, each typed by the schema that the route checks. */
export const api = {
  athletes: () => client.get<AthleteList>(paths.athletes),
  addAthlete: (name: string) => client.post<Athlete>(paths.athletes, { name }),
  groups: () => client.get<GroupList>(paths.groups),
  addSession: (session: NewSession) => client.post<Session>(paths.sessions, session),
  changeSession: (session_id: number, change: SessionChange) =>
    client.patch<Session>(paths.session(session_id), change),
  deleteSession: (session_id: number) => client.remove(paths.session(session_id)),
  restoreSession: (session_id: number) => client.post(`${paths.session(session_id)}/restore`),
  changeRepetition: (repetition_id: number, change: RepetitionChange) =>
    client.patch<Repetition>(paths.repetition(repetition_id), change),
  /** Measures the stored recordings again with the method of today; the earlier analysis stays. */
  analyseAgain: (repetition_id: number) => client.post<AnalysisAnswer>(paths.analyses(repetition_id), {}),
  deleteRepetition: (repetition_id: number) => client.remove(paths.repetition(repetition_id)),
  restoreRepetition: (repetition_id: number) => client.post(`${paths.repetition(repetition_id)}/restore`),
  startImport: (form: FormData, options?: UploadOptions) => client.upload<ImportAccepted>('/imports', form, options),
  import: (import_id: number) => client.get<Import>(`/imports/${import_id}`),
  /** A look at a timing file; with `apply` its times are put in. */
  timings: (file: File, method: TimingMethod | undefined, apply: boolean) => {
    const query = new URLSearchParams({ file_name: file.name, apply: String(apply), ...(method ? { method } : {}) });
    return client.postBytes<TimingAnswer>(`/timings?${query}`, file, 'text/csv');
  },
  cancelImport: (import_id: number) => client.post<Import>(`/imports/${import_id}/cancel`),
  retryImport: (import_id: number, fields: Partial<ImportFields>) =>
    client.post<ImportAccepted>(`/imports/${import_id}/retry`, fields),
  keepLayout: (import_id: number, name: string) => client.post<SavedLayout>(`/imports/${import_id}/layout`, { name }),
  /** What the beginning of a file is taken for; nothing is stored. */
  previewLayout: (form: FormData) => client.upload<LayoutPreview>('/layouts/preview', form),
  layouts: () => client.get<{ items: SavedLayout[] }>(paths.layouts),
  changeLayout: (layout_id: number, change: SavedLayoutChange) =>
    client.patch<SavedLayout>(`${paths.layouts}/${layout_id}`, change),
  addLayout: (layout: NewSavedLayout) => client.post<SavedLayout>(paths.layouts, layout),
  deleteLayout: (layout_id: number) => client.remove(`${paths.layouts}/${layout_id}`),
  restoreLayout: (layout_id: number) => client.post(`${paths.layouts}/${layout_id}/restore`),
};
