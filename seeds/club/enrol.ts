import type { Athlete } from '../../shared/schemas/athlete.ts';
import type { NewSprintTest } from '../../shared/schemas/coach/sprint-test.ts';
import type { ClubAthlete } from './athletes.ts';
import { courseTime } from './club-repetition.ts';
import { COURSE_M, daysBefore } from './season.ts';

/** Calls on the API: the path starts after `/api`; bodies are JSON or a form. Throws what the API refuses. */
export interface DemoApi {
  call<Answer>(method: string, path: string, body?: unknown): Promise<Answer>;
}

export interface Member {
  id: number;
  index: number;
  story: ClubAthlete;
}

/** Puts the athletes in, each with focus, sensors, lifts and the tests from before the sensors came. */
export async function enrol(api: DemoApi, club: ClubAthlete[], today: string, weeks: number): Promise<Member[]> {
  const members: Member[] = [];
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
    await api.call('POST', `/coach/athletes/${athlete_id}/focuses`, {
      focus: story.focus,
      from_date: daysBefore(today, story.focus_since_days),
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
    for (const { lift, load_kg } of story.strength) {
      await api.call('POST', '/coach/strength', {
        athlete_id,
        date: daysBefore(today, 9),
        lift,
        load_kg,
        load_unit: 'kg',
        sets: 3,
        repetitions: lift === 'straight_leg_deadlift' ? 10 : 5,
      });
    }
    await addEarlierTests(api, { id: athlete_id, index, story }, today, weeks);
    members.push({ id: athlete_id, index, story });
  }
  return members;
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
      distance_unit: 'yd',
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
