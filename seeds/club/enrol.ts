import type { Athlete } from '../../shared/schemas/athlete.ts';
import type { NewSprintTest } from '../../shared/schemas/coach/sprint-test.ts';
import type { ClubAthlete } from './athletes.ts';
import type { Focus } from '../../shared/schemas/coach/focus.ts';
import { makeRandom } from '../random.ts';
import { courseTime } from './club-repetition.ts';
import { CUES, OWN_FOCUSES } from './focuses.ts';
import { COURSE_M, daysBefore } from './season.ts';

/** Calls on the API: the path starts after `/api`; bodies are JSON or a form. Throws what the API refuses. */
export interface DemoApi {
  call<Answer>(method: string, path: string, body?: unknown): Promise<Answer>;
}

export interface Member {
  id: number;
  index: number;
  story: ClubAthlete;
  /** Key of the focus as the server knows it. */
  focus: string;
}

/** Puts the athletes in, each with focus, sensors, lifts and the tests from before the sensors came. */
export async function enrol(api: DemoApi, club: ClubAthlete[], today: string, weeks: number): Promise<Member[]> {
  const members: Member[] = [];
  const own = new Map<string, string>();
  for (const name of new Set(club.map((story) => story.focus))) {
    if (!(name in OWN_FOCUSES)) continue;
    own.set(name, (await api.call<Focus>('POST', '/coach/focuses', OWN_FOCUSES[name])).key);
  }
  for (const [index, story] of club.entries()) {
    const { athlete_id } = await api.call<Athlete>('POST', '/athletes', {
      name: story.name,
      sex: story.sex,
      birth_date: story.birth_date,
      body_mass_kg: round(story.runner.body_mass_kg, 1),
      stature_m: round(story.runner.stature_m, 2),
      leg_length_m: round(0.53 * story.runner.stature_m, 2),
      footwear: 'spikes',
      notes: story.notes,
    });
    const focus = own.get(story.focus) ?? story.focus;
    await api.call('POST', `/coach/athletes/${athlete_id}/focuses`, {
      focus,
      from_date: daysBefore(today, story.focus_since_days),
      cue: CUES[story.focus] ?? '',
    });
    await api.call('PUT', `/coach/athletes/${athlete_id}/sensors`, {
      items: (['left', 'right'] as const).map((side) => ({
        side,
        sensor_name: `clip ${String(index + 1).padStart(2, '0')} ${side}`,
        mounting: 'foot',
      })),
    });
    // All but the last have been asked, so that an export shows both: who is in it, and who is left out.
    if (index < club.length - 1) {
      await api.call('PUT', `/athletes/${athlete_id}/research-consent`, {
        status: 'given',
        status_date: daysBefore(today, 30),
      });
    }
    await addLifts(api, { id: athlete_id, index, story, focus }, today);
    await addEarlierTests(api, { id: athlete_id, index, story, focus }, today, weeks);
    members.push({ id: athlete_id, index, story, focus });
  }
  return members;
}

/** Some squats over the weeks, each load drawn around what a club athlete of that body mass lifts five times. */
async function addLifts(api: DemoApi, { id, index, story }: Member, today: string): Promise<void> {
  const random = makeRandom(90 + index).fork('lifts');
  const share = random.within(story.sex === 'female' ? 1.05 : 1.3, 0.12);
  for (const [visit, days] of [64, 37, 8].entries()) {
    const load = story.runner.body_mass_kg * share * (1 + 0.03 * visit) * random.within(1, 0.015);
    await api.call('POST', '/coach/strength', {
      athlete_id: id,
      date: daysBefore(today, days),
      lift: 'parallel_squat',
      load_kg: Math.round(load / 2.5) * 2.5,
      load_unit: 'kg',
      sets: 3,
      repetitions: 5,
    });
  }
}

/** Two tests from before the sensors came, so that a trend has a beginning. */
async function addEarlierTests(
  api: DemoApi,
  { id, index, story }: Member,
  today: string,
  weeks: number,
): Promise<void> {
  for (const weeksBefore of [weeks + 3, weeks + 1]) {
    const test: NewSprintTest = {
      athlete_id: id,
      date: daysBefore(today, 7 * weeksBefore - 4),
      distance_m: COURSE_M,
      distance_unit: 'm',
      start_style: 'standing',
      timing_method: 'touch_pad_beam',
      time_s: courseTime(story, index, 2 * weeksBefore - 1),
      splits: [],
      note: 'before the sensors',
    };
    await api.call('POST', '/coach/sprint-tests', test);
  }
}

function round(value: number, decimals: number): number {
  return Math.round(value * 10 ** decimals) / 10 ** decimals;
}
