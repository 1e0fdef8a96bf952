import type { Random } from '../random.ts';
import { OTHER, type StepGround } from './step-ground.ts';

/** Walks a number of steps, then closes the feet and stands. @returns the foot whose turn it is next */
export function walkSteps(
  ground: StepGround,
  random: Random,
  first: 'left' | 'right',
  steps: number,
  speed_mps = 1.35,
  close = true,
): 'left' | 'right' {
  let side = first;
  const from = Math.max(ground.speed_mps, 0.3);
  const begin = ground.now_s;
  const pace = (t: number) => speed_mps + (from - speed_mps) * Math.exp(-(t - begin) / 0.5);
  if (ground.standing[side] !== null) {
    // From standing: that foot is picked up first.
    ground.leave(side, ground.now_s + 0.15);
    ground.advance(ground.now_s + 0.6, (t) => speed_mps * Math.min(1, (t - begin) / 0.9));
  }
  for (let step = 0; step < steps; step++) {
    const last = step === steps - 1 && close;
    const stepTime = (0.95 / (speed_mps + 0.45)) * random.within(1, 0.03);
    const contact = stepTime * 2 * 0.61;
    const touchdown = ground.now_s;
    const other = OTHER[side];
    const otherIndex = ground.standing[other];
    if (otherIndex !== null && ground.plants[otherIndex].toe_off_s === Number.POSITIVE_INFINITY && !last) {
      ground.leave(other, touchdown + contact - stepTime);
    }
    ground.place({
      side,
      kind: last ? 'stand' : 'walk',
      touchdown_s: touchdown,
      toe_off_s: last ? Number.POSITIVE_INFINITY : touchdown + contact,
      ball_x_m: ground.x_m + 0.42 * ground.speed_mps * stepTime + 0.1,
      speed_mps: ground.speed_mps,
      gain: 0,
      flight_s: 0,
      repetition: 0,
      phase: null,
    });
    if (!last) ground.standing[side] = null;
    ground.advance(touchdown + stepTime, pace);
    side = other;
  }
  if (close) {
    // The other foot comes up beside it.
    const index = ground.standing[OTHER[side]];
    ground.place({
      side,
      kind: 'stand',
      touchdown_s: ground.now_s,
      toe_off_s: Number.POSITIVE_INFINITY,
      ball_x_m: (index === null ? ground.x_m : ground.plants[index].ball_x_m) + random.uniform(-0.05, 0.05),
      speed_mps: 0.4,
      gain: 0,
      flight_s: 0,
      repetition: 0,
      phase: null,
    });
    ground.advance(ground.now_s + 0.4, () => 0);
  }
  return side;
}

/** Jumps on the spot, on both feet or hopping on one, from standing to standing. */
export function jumpOnTheSpot(
  ground: StepGround,
  random: Random,
  times: number,
  contact_s: number,
  flight_s: number,
  sides: ('left' | 'right')[],
): void {
  const base = { speed_mps: 0, gain: 0, repetition: 0, phase: null };
  const x = { left: 0, right: 0 };
  for (const side of ['left', 'right'] as const) {
    x[side] = ground.plants[ground.standing[side] ?? 0].ball_x_m;
    ground.leave(side, ground.now_s + 0.3 + (sides.includes(side) ? random.uniform(0, 0.01) : 0));
  }
  ground.advance(ground.now_s + 0.3 + flight_s, () => 0);
  for (let i = 0; i < times; i++) {
    const last = i === times - 1;
    const contact = contact_s * random.within(1, 0.05);
    const flight = flight_s * random.within(1, 0.05);
    for (const side of sides) {
      const touchdown = ground.now_s + random.uniform(0, 0.012);
      ground.place({
        side,
        kind: last ? 'stand' : 'hop',
        touchdown_s: touchdown,
        toe_off_s: last ? Number.POSITIVE_INFINITY : touchdown + contact,
        ball_x_m: x[side] + random.uniform(-0.03, 0.03),
        flight_s: flight,
        ...base,
        speed_mps: last ? 0.4 : 0,
      });
      if (!last) ground.standing[side] = null;
    }
    ground.advance(ground.now_s + contact + flight, () => 0);
  }
  for (const side of ['left', 'right'] as const) {
    if (ground.standing[side] !== null) continue;
    ground.place({
      side,
      kind: 'stand',
      touchdown_s: ground.now_s,
      toe_off_s: Number.POSITIVE_INFINITY,
      ball_x_m: x[side],
      flight_s: 0,
      ...base,
      speed_mps: 0.4,
    });
  }
  ground.advance(ground.now_s + 0.3, () => 0);
}
