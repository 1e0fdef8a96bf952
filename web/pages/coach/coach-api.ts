import type { EraseReceipt } from '../../../shared/schemas/coach/erase-receipt.ts';
import type {
  AthleteFocus,
  AthleteFocusChange,
  AthleteMeasure,
  AthleteSensor,
  NewAthleteFocus,
  NewAthleteMeasure,
  Returning,
} from '../../../shared/schemas/coach/athlete-record.ts';
import type { CoachFocusChange, Focus, NewCoachFocus } from '../../../shared/schemas/coach/focus.ts';
import type { CoachSettings } from '../../../shared/schemas/coach/coach-settings.ts';
import type { ClubNorms } from '../../../shared/schemas/coach/norms.ts';
import type { FilmTie, FilmTieBody } from '../../../shared/schemas/coach/film.ts';
import type { Rating, RatingBody } from '../../../shared/schemas/coach/field-view.ts';
import type { PlanCheck, PlanQuestion, SessionPlan, SessionPlanBody } from '../../../shared/schemas/coach/plan.ts';
import type { NewSprintTest, SprintTest, SprintTestChange } from '../../../shared/schemas/coach/sprint-test.ts';
import type { NewStrengthRecord, StrengthRecord } from '../../../shared/schemas/coach/strength.ts';
import { localToday } from '../../app/format.ts';
import { preferences } from '../../app/preferences.ts';
import { client } from '../../client.ts';

/** Paths that the coach's pages read with `useResource`. */
export const coachPaths = {
  athlete: (athlete_id: number | string) => `/coach/athletes/${athlete_id}?today=${localToday()}`,
  now: (athlete_id: number | string) =>
    `/coach/athletes/${athlete_id}/now?today=${localToday()}&length=${preferences.value.length}`,
  standing: () => `/coach/standing?today=${localToday()}&length=${preferences.value.length}`,
  films: (repetition_id: number | string) => `/coach/repetitions/${repetition_id}/films`,
  sessionVerdicts: (session_id: number | string) =>
    `/coach/sessions/${session_id}/verdicts?length=${preferences.value.length}`,
  sprintTests: (athlete_id: number | string) => `/coach/athletes/${athlete_id}/sprint-tests?today=${localToday()}`,
  strength: (athlete_id: number | string) => `/coach/athletes/${athlete_id}/strength`,
  courseFigure: (athlete_id: number | string, query: string, form: string) =>
    `/coach/athletes/${athlete_id}/course/figure?${query}&form=${form}`,
  course: (athlete_id: number | string, query: string) => `/coach/athletes/${athlete_id}/course?${query}`,
  focus: (athlete_id: number | string, focus: string) =>
    `/coach/athletes/${athlete_id}/focuses/${focus}?today=${localToday()}&length=${preferences.value.length}`,
  focuses: '/coach/focuses',
  templates: '/coach/templates',
  settings: '/coach/settings',
  norms: '/coach/norms',
  others: (athlete_id: number | string) => `/coach/athletes/${athlete_id}/others?today=${localToday()}`,
  plan: (session_id: number | string) => `/coach/sessions/${session_id}/plan`,
  /** @param only repetitions that count as run; without it all */
  field: (session_id: number | string, only?: readonly number[]) =>
    `/coach/sessions/${session_id}/field?length=${preferences.value.length}${only ? `&only=${only.join(',')}` : ''}`,
  fieldEvents: (session_id: number | string) => `/api/coach/sessions/${session_id}/field/events`,
  fatigue: (session_id: number | string) => `/coach/sessions/${session_id}/fatigue`,
};

/** Changes, each typed by the schema that the route checks. */
export const coachApi = {
  addCoachFocus: (body: NewCoachFocus) => client.post<Focus>('/coach/focuses', body),
  changeCoachFocus: (id: number, change: CoachFocusChange) => client.patch<Focus>(`/coach/focuses/${id}`, change),
  deleteCoachFocus: (id: number) => client.remove(`/coach/focuses/${id}`),
  restoreCoachFocus: (id: number) => client.post<unknown>(`/coach/focuses/${id}/restore`),
  setReturning: (athlete_id: number, returning: Returning | null) =>
    client.put<{ returning: Returning | null }>(`/coach/athletes/${athlete_id}/returning`, { returning }),
  setRatingPhoto: (repetition_id: number, aspect: string, picture: Blob) =>
    client.putFile(`/coach/repetitions/${repetition_id}/ratings/${aspect}/photo`, picture),
  deleteRatingPhoto: (repetition_id: number, aspect: string) =>
    client.remove(`/coach/repetitions/${repetition_id}/ratings/${aspect}/photo`),
  setFilmTie: (repetition_id: number, body: FilmTieBody) =>
    client.put<{ items: FilmTie[] }>(`/coach/repetitions/${repetition_id}/films`, body),
  addMeasure: (athlete_id: number, body: NewAthleteMeasure) =>
    client.post<AthleteMeasure>(`/coach/athletes/${athlete_id}/measures`, body),
  deleteMeasure: (id: number) => client.remove(`/coach/measures/${id}`),
  restoreMeasure: (id: number) => client.post<unknown>(`/coach/measures/${id}/restore`),
  setSensors: (athlete_id: number, items: AthleteSensor[]) =>
    client.put<{ items: AthleteSensor[] }>(`/coach/athletes/${athlete_id}/sensors`, { items }),
  addFocus: (athlete_id: number, body: NewAthleteFocus) =>
    client.post<AthleteFocus>(`/coach/athletes/${athlete_id}/focuses`, body),
  changeFocus: (id: number, change: AthleteFocusChange) =>
    client.patch<AthleteFocus>(`/coach/athlete-focuses/${id}`, change),
  deleteFocus: (id: number) => client.remove(`/coach/athlete-focuses/${id}`),
  restoreFocus: (id: number) => client.post<unknown>(`/coach/athlete-focuses/${id}/restore`),
  checkPlan: (question: PlanQuestion) => client.post<PlanCheck>('/coach/plan-check', question),
  setPlan: (session_id: number, body: SessionPlanBody) =>
    client.put<SessionPlan>(`/coach/sessions/${session_id}/plan`, body),
  showNorms: (shown: boolean) => client.put<ClubNorms>('/coach/norms', { shown }),
  setSettings: (settings: CoachSettings) => client.put<CoachSettings>('/coach/settings', settings),
  rate: (repetition_id: number, aspect: string, body: RatingBody) =>
    client.put<{ items: Rating[] }>(`/coach/repetitions/${repetition_id}/ratings/${aspect}`, body),
  addSprintTest: (body: NewSprintTest) => client.post<SprintTest>('/coach/sprint-tests', body),
  changeSprintTest: (id: number, change: SprintTestChange) =>
    client.patch<SprintTest>(`/coach/sprint-tests/${id}`, change),
  deleteSprintTest: (id: number) => client.remove(`/coach/sprint-tests/${id}`),
  restoreSprintTest: (id: number) => client.post<unknown>(`/coach/sprint-tests/${id}/restore`),
  addStrength: (body: NewStrengthRecord) => client.post<StrengthRecord>('/coach/strength', body),
  deleteStrength: (id: number) => client.remove(`/coach/strength/${id}`),
  restoreStrength: (id: number) => client.post<unknown>(`/coach/strength/${id}/restore`),
  eraseAthlete: (athlete_id: number, name: string) =>
    client.post<EraseReceipt>(`/coach/athletes/${athlete_id}/erase`, { name }),
};
