import type { Athlete } from './athlete.ts';
import { steadyContact, steadyRate } from './athlete.ts';
import type { Random } from './random.ts';

export type Side = 'left' | 'right';
export type Start = 'block' | 'three_point' | 'standing';
export type Phase = 'acceleration' | 'maximum' | 'slowing' | 'walking' | 'standing';
export interface RunPlan {
  start: Start;
  /** Part of the athlete's top speed. */
  effort: number;
  /** m; from there on the runner slows down. */
  distance: number;
  /** m/s2. */
  slowing: number;
}

/** One foot on the ground. Speeds in m/s: mean, of the flight before, of the flight after. `s`: where its ball stands, m. */
export interface Step {
  side: Side;
  phase: Phase;
  repetition: number;
  index: number;
  touchdown: number;
  toeOff: number;
  s: number;
  speed: number;
  speedIn: number;
  speedOut: number;
}
export interface Run {
  repetition: number;
  plan: RunPlan;
  firstMovement: number;
  steps: Step[];
  rearToeOff: number;
  frontToeOff: number;
  frontSide: Side;
  end: number;
  endSpeed: number;
}

/** Mean speed curve of one run: exponential rise with a soft onset, then slowing from where the distance is covered. */
export function speedCurve(a: Athlete, plan: RunPlan): { speed: (t: number) => number; finish: number } {
  const vmax = a.topSpeed * plan.effort;
  const tau = a.tau * (plan.effort < 0.8 ? 1.25 : 1);
  const rise = (t: number) => {
    const u = t - 0.06 * (1 - Math.exp(-t / 0.06));
    return vmax * (1 - Math.exp(-u / tau));
  };
  let s = 0;
  let t = 0;
  while (s < plan.distance) {
    s += rise(t) * 0.002;
    t += 0.002;
  }
  const finish = t;
  const top = rise(t);
  const onset = 0.6;
  return {
    finish,
    speed: (x) => {
      if (x <= finish) return rise(x);
      const u = x - finish;
      return top - plan.slowing * (u < onset ? (u * u) / (2 * onset) : u - onset / 2);
    },
  };
}

/** Times and side of every contact of a run that starts (first movement) at t0 and ends below `endSpeed`. */
export function scheduleRun(
  a: Athlete,
  plan: RunPlan,
  repetition: number,
  t0: number,
  r: Random,
  endSpeed: number,
): Run {
  const { speed, finish } = speedCurve(a, plan);
  const vmax = a.topSpeed * plan.effort;
  const hard = plan.effort > 0.85;
  const frontToeOff = plan.start === 'standing' ? r.between(0.34, 0.48) : r.between(0.31, 0.38);
  const rearToeOff = frontToeOff - (plan.start === 'standing' ? r.between(0.17, 0.2) : r.between(0.14, 0.19));
  const frontSide: Side = r.next() < 0.6 ? 'left' : 'right';
  const steps: Step[] = [];
  const topContact = steadyContact(a, vmax);
  const topRate = steadyRate(a, vmax);
  const firstContact = hard ? a.firstContact : Math.max(a.firstContact, topContact * 0.97);
  let toeOff = frontToeOff;
  let side: Side = frontSide;
  let v1 = 0;
  for (let index = 1; ; index++) {
    side = side === 'left' ? 'right' : 'left';
    const guess = speed(toeOff + 0.1);
    const slowing = toeOff > finish;
    if (slowing && guess < endSpeed) break;
    if (index === 1) v1 = guess;
    const x = Math.max(0, Math.min(1, (vmax - guess) / Math.max(0.5, vmax - v1)));
    const tc0 = slowing ? steadyContact(a, guess) * 1.03 : topContact + (firstContact - topContact) * x ** 1.25;
    const rate0 = slowing
      ? steadyRate(a, guess) + 0.25 * (topRate - steadyRate(a, guess)) * Math.exp(-(toeOff - finish) / 1.5)
      : topRate * (1 - (hard ? 0.12 : 0.04) * x ** 2);
    const sign = side === 'left' ? 0.5 : -0.5;
    const contact = tc0 * (1 + sign * a.asymmetry + r.normal(0, a.contactCv));
    const flight = Math.max(index <= 2 ? 0.035 : 0.045, (1 / rate0 - tc0) * (1 + r.normal(0, a.flightCv)));
    const touchdown = toeOff + flight;
    const phase: Phase = slowing ? 'slowing' : speed(touchdown) > 0.95 * vmax ? 'maximum' : 'acceleration';
    const step: Step = {
      side,
      phase,
      repetition,
      index,
      touchdown: t0 + touchdown,
      toeOff: t0 + touchdown + contact,
      s: 0,
      speed: guess,
      speedIn: 0,
      speedOut: 0,
    };
    steps.push(step);
    toeOff = touchdown + contact;
  }
  const last = steps.length - 1;
  for (let i = 0; i <= last; i++) {
    const st = steps[i] as Step;
    const before = i === 0 ? t0 + frontToeOff : (steps[i - 1] as Step).toeOff;
    const after = i === last ? st.toeOff + 0.05 : (steps[i + 1] as Step).touchdown;
    st.speedIn = speed((before + st.touchdown) / 2 - t0);
    st.speedOut = speed((st.toeOff + after) / 2 - t0);
  }
  return {
    repetition,
    plan,
    firstMovement: t0,
    steps,
    rearToeOff: t0 + rearToeOff,
    frontToeOff: t0 + frontToeOff,
    frontSide,
    end: (steps[last] as Step).toeOff,
    endSpeed: (steps[last] as Step).speedOut,
  };
}
