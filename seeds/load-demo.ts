/**
 * The demo: an invented club with some weeks of sessions, put in through the API like anybody's. Nothing is written behind
 * the API's back, and every figure on screen comes from signals that went through the whole analysis.
 */
import { availableParallelism } from 'node:os';
import { DEMO_NOTES } from '../shared/demo.ts';
import { localDate } from '../shared/dates.ts';
import { speechOf } from '../shared/messages/speeches.ts';
import type { SessionPlanBody } from '../shared/schemas/coach/plan.ts';
import type { NewSprintTest } from '../shared/schemas/coach/sprint-test.ts';
import type { Group } from '../shared/schemas/group.ts';
import type { Import, ImportAccepted } from '../shared/schemas/import.ts';
import type { Session } from '../shared/schemas/session.ts';
import { CLUB_NAME, clubOf } from './club/athletes.ts';
import type { ClubRepetition } from './club/club-repetition.ts';
import { type DemoApi, enrol, type Member } from './club/enrol.ts';
import { makeRandom } from './random.ts';
import { RepetitionMaker } from './club/repetition-maker.ts';
import { type ClubSession, COURSE_M, seasonOf } from './club/season.ts';

export type { DemoApi } from './club/enrol.ts';

export interface DemoOptions {
  /** Date of the latest session; today without it. */
  today?: string;
  athletes?: number;
  weeks?: number;
  /** Full-speed repetitions a session and athlete. */
  repetitions?: number;
  /** False leaves the part-speed repetitions out: a long season in little time. */
  part_speed?: boolean;
  rate_hz?: number;
  onProgress?: (done: number, total: number) => void;
  /** Stops between two repetitions; what is loaded stays. */
  signal?: AbortSignal;
}

export interface DemoResult {
  athletes: number;
  sessions: number;
  repetitions: number;
  /** Imports that ended without a result, with the reason. */
  failed: string[];
}

/** Imports under way at a time: one is made, one is read by each processor, and one more waits for it. */
const IN_FLIGHT = 2 * availableParallelism() + 1;

/** Loads the demo into a server. The latest session comes first, so that there is something to see within seconds. */
export async function loadDemo(api: DemoApi, options: DemoOptions = {}): Promise<DemoResult> {
  const { athletes = 8, weeks = 4, repetitions = 3, part_speed = true, rate_hz = 400, signal } = options;
  const today = options.today ?? localDate(new Date());
  const members = await enrol(api, clubOf(athletes), today, weeks);
  const group = await api.call<Group>('POST', '/groups', {
    name: CLUB_NAME,
    athlete_ids: members.map((member) => member.id),
    notes: DEMO_NOTES,
  });
  const season = seasonOf(today, weeks, repetitions).map((session) =>
    part_speed ? session : { ...session, efforts: session.efforts.filter((effort) => effort === 100) },
  );
  const sessions: { session: ClubSession; id: number }[] = [];
  for (const session of season) sessions.push({ session, id: await openSession(api, session, group, members) });

  const orders = sessions.flatMap((entry) => ordersOf(entry, members));
  const maker = new RepetitionMaker();
  const failed: string[] = [];
  let done = 0;
  try {
    const next = orders[Symbol.iterator]();
    const lane = async () => {
      for (const order of next) {
        if (signal?.aborted) return;
        const made = await maker.make({
          athlete: order.member.index,
          athletes,
          session_index: order.session.index,
          date: order.session.date,
          order: order.order,
          effort_percent: order.effort_percent,
          rate_hz,
        });
        const fault = await importRepetition(api, order, made);
        if (fault) failed.push(fault);
        done++;
        options.onProgress?.(done, orders.length);
      }
    };
    await Promise.all(Array.from({ length: IN_FLIGHT }, lane));
  } finally {
    await maker.close();
  }
  return { athletes: members.length, sessions: sessions.length, repetitions: done, failed };
}

async function openSession(api: DemoApi, session: ClubSession, group: Group, members: Member[]): Promise<number> {
  const { session_id } = await api.call<Session>('POST', '/sessions', {
    session_date: session.date,
    title: session.title,
    group_id: group.group_id,
    place: 'The old straight',
    surface: 'track',
    temperature_c: session.temperature_c,
    pressure_hpa: session.pressure_hpa,
  });
  const plan: SessionPlanBody = {
    template: null,
    sets: session.sets,
    athlete_ids: members.map((member) => member.id),
  };
  await api.call('PUT', `/coach/sessions/${session_id}/plan`, plan);
  return session_id;
}

interface Order {
  member: Member;
  session: ClubSession;
  session_id: number;
  order: number;
  set_number: number;
  effort_percent: number;
}

/** A session's repetitions in running order: all athletes run their first, then their second, ... */
function ordersOf({ session, id }: { session: ClubSession; id: number }, members: Member[]): Order[] {
  const present = members.filter((member) => !member.story.absent.includes(session.index));
  const setOf = (order: number) => session.efforts.slice(0, order).filter((e, i, all) => e !== all[i + 1]).length + 1;
  return session.efforts.flatMap((effort_percent, order) =>
    present
      // Today's session is still going on: the second half of the group has its last repetition before it.
      .filter((member) => session.index > 0 || order < session.efforts.length - 1 || member.index < members.length / 2)
      .map((member) => ({ member, session, session_id: id, order, set_number: setOf(order), effort_percent })),
  );
}

async function importRepetition(api: DemoApi, order: Order, made: ClubRepetition): Promise<string | null> {
  const form = new FormData();
  const fields = {
    athlete_id: order.member.id,
    session_id: order.session_id,
    mounting: 'foot',
    effort_percent: order.effort_percent,
    course: `${COURSE_M}m`,
    time: `${made.time_s}s`,
    splits: `${COURSE_M / 2}m=${made.split_s}s`,
    clock: 'first_movement',
    timing_method: 'touch_pad_beam',
    start_style: 'standing',
    set_number: order.set_number,
    order_number: order.order + 1,
    surface: 'track',
    footwear: 'spikes',
  };
  for (const [name, value] of Object.entries(fields)) form.set(name, String(value));
  for (const side of ['left', 'right'] as const) {
    const bytes = made[side] as Uint8Array<ArrayBuffer>;
    form.set(
      side,
      new Blob([bytes]),
      `${order.session.date}-${order.member.index + 1}-${order.order + 1}-${side}.csv.gz`,
    );
  }
  const { import_id } = await api.call<ImportAccepted>('POST', '/imports', form);
  const end = await endOf(api, import_id);
  if (order.session.sprint_test && order.effort_percent === 100 && end.repetition_ids.length > 0) {
    const test: NewSprintTest = {
      athlete_id: order.member.id,
      date: order.session.date,
      distance_m: COURSE_M,
      distance_unit: 'm',
      start_style: 'standing',
      timing_method: 'touch_pad_beam',
      time_s: made.time_s,
      splits: [{ distance_m: COURSE_M / 2, split_time_s: made.split_s }],
      repetition_id: end.repetition_ids[0],
    };
    await api.call('POST', '/coach/sprint-tests', test);
  }
  const last = order.order === order.session.efforts.length - 1;
  if (last && end.repetition_ids.length > 0) await rate(api, order, end.repetition_ids[0]);
  return end.state === 'done'
    ? null
    : `${order.member.story.name}, ${order.session.date}: ${end.fault ? speechOf('en').tell(end.fault).message : end.state}`;
}

/** The coach looks at the last repetition of every session and notes how the athlete's focus looked, 1 to 5. */
async function rate(api: DemoApi, { member, session }: Order, repetitionId: number): Promise<void> {
  const eye = makeRandom(31 * member.index + session.index).fork('eye');
  const shows = { improves: 4, stays: 3, worsens: 2.4 }[member.story.course];
  const rating = Math.round(Math.min(5, Math.max(1, eye.normal(session.index < 5 ? shows : 3, 0.6))));
  await api.call('PUT', `/coach/repetitions/${repetitionId}/ratings/${member.focus}`, {
    rating,
    note: session.index === 0 ? 'seen from the side, half-way' : '',
  });
}

async function endOf(api: DemoApi, importId: number): Promise<Import> {
  for (let wait_ms = 60; ; wait_ms = Math.min(150, wait_ms * 1.3)) {
    const state = await api.call<Import>('GET', `/imports/${importId}`);
    if (state.state === 'done' || state.state === 'failed' || state.state === 'cancelled') return state;
    await new Promise((resolve) => setTimeout(resolve, wait_ms));
  }
}
