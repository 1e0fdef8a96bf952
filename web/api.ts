import type { Athlete, AthleteList } from '../shared/schemas/athlete.ts';
import type { GroupList } from '../shared/schemas/group.ts';
import type { Import, ImportAccepted } from '../shared/schemas/import.ts';
import type { Repetition, RepetitionChange } from '../shared/schemas/repetition.ts';
import type { NewSession, Session, SessionChange } from '../shared/schemas/session.ts';
import { client } from './client.ts';

/** Paths that pages read with `useResource`, and what each answers. */
export const paths = {
  athletes: '/athletes',
  groups: '/groups',
  sessions: '/sessions',
  session: (session_id: number | string) => `/sessions/${session_id}`,
  repetition: (repetition_id: number | string) => `/repetitions/${repetition_id}`,
  profile: (repetition_id: number | string) => `/repetitions/${repetition_id}/profile`,
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
  deleteRepetition: (repetition_id: number) => client.remove(paths.repetition(repetition_id)),
  restoreRepetition: (repetition_id: number) => client.post(`${paths.repetition(repetition_id)}/restore`),
  startImport: (form: FormData) => client.upload<ImportAccepted>('/imports', form),
  import: (import_id: number) => client.get<Import>(`/imports/${import_id}`),
};
