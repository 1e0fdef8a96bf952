import type { Athlete } from './athlete.ts';
import type { Contact } from './contact.ts';
import { Pieces, quintic, smoothStep } from './curves.ts';
import type { Leg } from './leg.ts';
import { length } from './leg.ts';
import { Path } from './path.ts';
import type { Random } from './random.ts';
import { placeRun } from './running.ts';
import type { Scene, Tracks } from './scene.ts';
import type { Run, RunPlan } from './schedule.ts';
import { scheduleRun } from './schedule.ts';
import type { Sole } from './sole.ts';
import { placeStartFeet } from './start.ts';
import { walkOn } from './walking.ts';

/** What one athlete does in one recording: hip motion, every contact of both feet, the line on the ground. */
export interface Session {
  tracks: Tracks;
  contacts: Contact[];
  runs: Run[];
  starts: number[];
  path: Path;
  end: number;
}
export interface SessionPlan {
  stand: number;
  runs: RunPlan[];
  back: number;
  straight: number;
}

const still = { v: 0, a: 0 };

/** Standing, set position, run, slowing, walking (and around and back for the next run), standing. */
export function makeSession(a: Athlete, leg: Leg, sole: Sole, plan: SessionPlan, r: Random): Session {
  const tracks: Tracks = { s: new Pieces(), z: new Pieces(), pelvis: new Pieces() };
  const path = new Path();
  const contacts: Contact[] = [];
  const runs: Run[] = [];
  const starts: number[] = [];
  const L = length(leg);
  const up = leg.ankleUp;
  const standHeight = 0.985 * L + up;
  const scene: Scene = { athlete: a, leg, sole, tracks, contacts, path, r };
  tracks.pelvis.add(-1, () => 0);
  let t = 0;
  let s = 0;
  plan.runs.forEach((run, n) => {
    const bent = run.start !== 'standing';
    const stood = t + plan.stand * r.between(1, 1.3);
    const setAt = stood + (bent ? r.between(0.9, 1.6) : r.between(0.4, 0.8));
    const first = setAt + (bent ? r.between(0.8, 1.8) : r.between(0.5, 1.5));
    const setS = s + (bent ? 0.26 : 0.06);
    const setHeight = (bent ? r.between(0.79, 0.84) : r.between(0.9, 0.93)) * L + up;
    const from = s;
    const since = t;
    const sway = (x: number) =>
      (0.002 * Math.sin(2.3 * x + n) + 0.001 * Math.sin(5.7 * x)) *
      (1 - smoothStep((x - stood + 0.5) / 0.5)) *
      smoothStep((x - since) / 0.5);
    tracks.s.add(t, (x) => from + sway(x));
    tracks.s.add(stood, quintic(stood, { p: s, ...still }, setAt, { p: setS, ...still }));
    tracks.s.add(setAt, () => setS);
    tracks.z.add(t, () => standHeight);
    tracks.z.add(stood, quintic(stood, { p: standHeight, ...still }, setAt, { p: setHeight, ...still }));
    tracks.z.add(setAt, () => setHeight);

    const done = scheduleRun(a, run, n + 1, first, r, 2.7);
    placeStartFeet(scene, done, setS, { stood, setAt });
    runs.push(done);
    starts.push(setS);
    const hip = placeRun(scene, done, setS, setHeight);
    const more = n + 1 < plan.runs.length;
    ({ t, s } = walkOn(scene, hip, done.steps.at(-1)!.side, {
      straight: plan.straight,
      back: more ? plan.back : 0,
      repetition: n + 1,
    }));
  });
  contacts.sort((p, q) => p.touchdown - q.touchdown);
  return { tracks, contacts, runs, starts, path, end: t + plan.stand };
}
