import type { Phase, Side } from '../../shared/words.ts';
import type { Random } from '../random.ts';
import { steadyContactTime, steadyFlightTime } from './gait.ts';
import type { Runner } from './runner.ts';

export type PlantKind = 'stand' | 'walk' | 'run' | 'hop';

/** One intended placing of one foot. Times are seconds on the world's clock. */
export interface Plant {
  side: Side & ('left' | 'right');
  kind: PlantKind;
  touchdown_s: number;
  toe_off_s: number;
  /** Where the ball of the foot comes down, along the direction of travel. */
  ball_x_m: number;
  speed_mps: number;
  /** 1 at the first push of a start, 0 at constant speed. */
  gain: number;
  /** Flight after this contact; sets the load, mean force = body weight x (contact + flight) / contact. */
  flight_s: number;
  repetition: number;
  phase: Phase | null;
}

/** The body's travel: speed and distance on a fine grid of time. */
export interface Travel {
  start_s: number;
  step_s: number;
  distance_m: number[];
  speed_mps: number[];
}

export function distanceAt(travel: Travel, time_s: number): number {
  const u = Math.max(0, (time_s - travel.start_s) / travel.step_s);
  const i = Math.min(travel.distance_m.length - 2, Math.floor(u));
  return travel.distance_m[i] + (travel.distance_m[i + 1] - travel.distance_m[i]) * (u - i);
}

export function speedAt(travel: Travel, time_s: number): number {
  const i = Math.round((time_s - travel.start_s) / travel.step_s);
  return travel.speed_mps[Math.min(travel.speed_mps.length - 1, Math.max(0, i))];
}

const OTHER = { left: 'right', right: 'left' } as const;

/** What one repetition is asked to be. */
export interface RepetitionOrder {
  /** Top speed of this effort, m/s. */
  top_speed_mps: number;
  time_constant_s: number;
  distance_m: number;
  /** Relative lengthening of contact time by tiredness. */
  fatigue: number;
  /** Seconds of running in a straight line at top speed after the line before slowing begins. */
  run_out_s: number;
}

export interface PlannedRepetition {
  first_movement_s: number;
  start_x_m: number;
  finish_s: number;
  end_s: number;
}

/** Builds plants in time order: standing, start, running, slowing, walking, standing. */
export class StepPlanner {
  readonly plants: Plant[] = [];
  readonly repetitions: PlannedRepetition[] = [];
  readonly travel: Travel;
  private readonly runner: Runner;
  private readonly random: Random;
  /** The foot that is on the ground now, per side: index into `plants`, or null. */
  private standing: { left: number | null; right: number | null } = { left: null, right: null };

  constructor(runner: Runner, random: Random, start_s: number) {
    this.runner = runner;
    this.random = random;
    this.travel = { start_s, step_s: 0.002, distance_m: [0], speed_mps: [0] };
  }

  get now_s(): number {
    return this.travel.start_s + (this.travel.distance_m.length - 1) * this.travel.step_s;
  }

  get x_m(): number {
    return this.travel.distance_m[this.travel.distance_m.length - 1];
  }

  get speed_mps(): number {
    return this.travel.speed_mps[this.travel.speed_mps.length - 1];
  }

  private advance(until_s: number, speed: (time_s: number) => number): void {
    while (this.now_s < until_s - 1e-9) {
      const v = speed(this.now_s + this.travel.step_s);
      this.travel.distance_m.push(this.x_m + ((v + this.speed_mps) / 2) * this.travel.step_s);
      this.travel.speed_mps.push(v);
    }
  }

  private place(plant: Plant): void {
    this.plants.push(plant);
    this.standing[plant.side] = this.plants.length - 1;
  }

  /** Stands with one foot ahead for the given time; feet already down stay where they are. */
  stand(duration_s: number, front: 'left' | 'right', stagger_m: number): void {
    for (const side of ['left', 'right'] as const) {
      if (this.standing[side] === null) {
        this.place({
          side,
          kind: 'stand',
          touchdown_s: this.now_s,
          toe_off_s: Number.POSITIVE_INFINITY,
          ball_x_m: this.x_m + (side === front ? 0.05 : 0.05 - stagger_m),
          speed_mps: 0,
          gain: 0,
          flight_s: 0,
          repetition: 0,
          phase: null,
        });
      }
    }
    this.advance(this.now_s + duration_s, () => 0);
  }

  private leave(side: 'left' | 'right', toe_off_s: number): void {
    const index = this.standing[side];
    if (index !== null) this.plants[index].toe_off_s = toe_off_s;
    this.standing[side] = null;
  }

  /** Runs from standing, and slows to a walk at the end. */
  repetition(order: RepetitionOrder, front: 'left' | 'right', number: number): void {
    const start_s = this.now_s;
    const start_x = this.x_m;
    const V = order.top_speed_mps;
    const speed = (t: number) => V * (1 - Math.exp(-(t - start_s) / order.time_constant_s));
    // The rear leg begins to move with the body; nothing moves before 'first movement'.
    const rearOff = start_s + this.random.within(0.33, 0.015);
    const frontOff = start_s + this.random.within(0.5, 0.025);
    this.leave(OTHER[front], rearOff);
    this.leave(front, frontOff);
    this.advance(frontOff + this.random.within(0.06, 0.01), speed);
    let side = OTHER[front];
    const topContact = steadyContactTime(V) * this.runner.contact_factor * (1 + order.fatigue);
    const topFlight = steadyFlightTime(V) * this.runner.flight_factor;
    let finish_s = Number.NaN;
    let slowing_s = Number.POSITIVE_INFINITY;
    let slowFrom = V;
    const pace = (t: number) =>
      t < slowing_s ? speed(t) : Math.max(1.5, slowFrom - 2.3 * (t - slowing_s) - 0.25 * (t - slowing_s) ** 2);
    while (true) {
      const touchdown = this.now_s;
      const v = this.speed_mps;
      if (Number.isNaN(finish_s) && this.x_m - start_x >= order.distance_m) {
        finish_s = this.timeOfDistance(start_x + order.distance_m, start_s);
        slowing_s = touchdown + order.run_out_s;
        slowFrom = speed(slowing_s);
      }
      const slowing = touchdown >= slowing_s;
      if (slowing && v < 2.3) break;
      const gain = slowing ? 0 : Math.max(0, 1 - v / V) ** 1.2;
      const personal = 1 + (this.runner.side_difference / 2) * (side === 'left' ? 1 : -1);
      const chance = () => this.random.within(1, this.runner.step_variation);
      const usualContact = slowing
        ? steadyContactTime(v) * this.runner.contact_factor
        : topContact * (1 + 0.75 * Math.max(0, 1 - v / V) ** 1.3);
      const usualFlight = slowing
        ? steadyFlightTime(v) * this.runner.flight_factor
        : Math.min(topFlight, 0.05) + Math.max(0, topFlight - 0.05) * Math.min(1, v / V) ** 1.4;
      const contact = usualContact * personal * chance();
      const flight = Math.max(0.025, usualFlight * (1 + 1.6 * (chance() - 1)));
      this.place({
        side,
        kind: 'run',
        touchdown_s: touchdown,
        toe_off_s: touchdown + contact,
        ball_x_m: this.x_m + 0.42 * v * contact * (1 - 0.9 * gain) + 0.03 * (this.random.uniform(-1, 1) + 1),
        speed_mps: v,
        gain,
        flight_s: flight,
        repetition: number,
        phase: slowing ? 'slowing' : v > 0.975 * V ? 'maximum speed' : 'acceleration',
      });
      this.leave(side, touchdown + contact);
      this.advance(touchdown + contact + flight, pace);
      side = OTHER[side];
    }
    this.repetitions.push({ first_movement_s: start_s, start_x_m: start_x, finish_s, end_s: this.now_s });
    this.walkOn(side);
  }

  /** Runs at one speed from the first instant on, as on a treadmill. */
  steady(speed_mps: number, duration_s: number): void {
    const end = this.now_s + duration_s;
    let side: 'left' | 'right' = 'left';
    this.travel.speed_mps[0] = speed_mps;
    while (this.now_s < end) {
      const personal = 1 + (this.runner.side_difference / 2) * (side === 'left' ? 1 : -1);
      const chance = () => this.random.within(1, 0.6 * this.runner.step_variation);
      const contact = steadyContactTime(speed_mps) * this.runner.contact_factor * personal * chance();
      const flight = Math.max(
        0.02,
        steadyFlightTime(speed_mps) * this.runner.flight_factor * (1 + 1.6 * (chance() - 1)),
      );
      this.place({
        side,
        kind: 'run',
        touchdown_s: this.now_s,
        toe_off_s: this.now_s + contact,
        ball_x_m: this.x_m + 0.42 * speed_mps * contact + 0.03 * this.random.uniform(0, 2),
        speed_mps,
        gain: 0,
        flight_s: flight,
        repetition: 1,
        phase: null,
      });
      this.leave(side, this.now_s + contact);
      this.advance(this.now_s + contact + flight, () => speed_mps);
      side = OTHER[side];
    }
  }

  private walkSide: 'left' | 'right' = 'left';

  private walkOn(side: 'left' | 'right'): void {
    this.walkSide = side;
  }

  /** Walks a number of steps, then closes the feet and stands. */
  walk(steps: number, speed_mps = 1.35, close = true): void {
    let side = this.walkSide;
    const from = Math.max(this.speed_mps, 0.3);
    const begin = this.now_s;
    const pace = (t: number) => speed_mps + (from - speed_mps) * Math.exp(-(t - begin) / 0.5);
    if (this.standing[side] !== null) {
      // From standing: that foot is picked up first.
      this.leave(side, this.now_s + 0.15);
      this.advance(this.now_s + 0.6, (t) => speed_mps * Math.min(1, (t - begin) / 0.9));
    }
    for (let step = 0; step < steps; step++) {
      const last = step === steps - 1 && close;
      const stepTime = (0.95 / (speed_mps + 0.45)) * this.random.within(1, 0.03);
      const contact = stepTime * 2 * 0.61;
      const touchdown = this.now_s;
      const other = OTHER[side];
      const otherIndex = this.standing[other];
      if (otherIndex !== null && this.plants[otherIndex].toe_off_s === Number.POSITIVE_INFINITY && !last) {
        this.leave(other, touchdown + contact - stepTime);
      }
      this.place({
        side,
        kind: last ? 'stand' : 'walk',
        touchdown_s: touchdown,
        toe_off_s: last ? Number.POSITIVE_INFINITY : touchdown + contact,
        ball_x_m: this.x_m + 0.42 * this.speed_mps * stepTime + 0.1,
        speed_mps: this.speed_mps,
        gain: 0,
        flight_s: 0,
        repetition: 0,
        phase: null,
      });
      if (!last) this.standing[side] = null;
      this.advance(touchdown + stepTime, pace);
      side = other;
    }
    if (close) {
      // The other foot comes up beside it.
      const index = this.standing[OTHER[side]];
      this.place({
        side,
        kind: 'stand',
        touchdown_s: this.now_s,
        toe_off_s: Number.POSITIVE_INFINITY,
        ball_x_m: (index === null ? this.x_m : this.plants[index].ball_x_m) + this.random.uniform(-0.05, 0.05),
        speed_mps: 0.4,
        gain: 0,
        flight_s: 0,
        repetition: 0,
        phase: null,
      });
      this.advance(this.now_s + 0.4, () => 0);
    }
    this.walkSide = side;
  }

  /** Jumps on the spot, on both feet or hopping on one, from standing to standing. */
  jump(times: number, contact_s: number, flight_s: number, sides: ('left' | 'right')[]): void {
    const base = { speed_mps: 0, gain: 0, repetition: 0, phase: null };
    const x = { left: 0, right: 0 };
    for (const side of ['left', 'right'] as const) {
      x[side] = this.plants[this.standing[side] ?? 0].ball_x_m;
      this.leave(side, this.now_s + 0.3 + (sides.includes(side) ? this.random.uniform(0, 0.01) : 0));
    }
    this.advance(this.now_s + 0.3 + flight_s, () => 0);
    for (let i = 0; i < times; i++) {
      const last = i === times - 1;
      const contact = contact_s * this.random.within(1, 0.05);
      const flight = flight_s * this.random.within(1, 0.05);
      for (const side of sides) {
        const touchdown = this.now_s + this.random.uniform(0, 0.012);
        this.place({
          side,
          kind: last ? 'stand' : 'hop',
          touchdown_s: touchdown,
          toe_off_s: last ? Number.POSITIVE_INFINITY : touchdown + contact,
          ball_x_m: x[side] + this.random.uniform(-0.03, 0.03),
          flight_s: flight,
          ...base,
          speed_mps: last ? 0.4 : 0,
        });
        if (!last) this.standing[side] = null;
      }
      this.advance(this.now_s + contact + flight, () => 0);
    }
    for (const side of ['left', 'right'] as const) {
      if (this.standing[side] !== null) continue;
      this.place({
        side,
        kind: 'stand',
        touchdown_s: this.now_s,
        toe_off_s: Number.POSITIVE_INFINITY,
        ball_x_m: x[side],
        flight_s: 0,
        ...base,
        speed_mps: 0.4,
      });
    }
    this.advance(this.now_s + 0.3, () => 0);
  }

  /** Time at which the body passed a distance, by looking back along the travel. */
  timeOfDistance(x_m: number, after_s: number): number {
    let i = Math.max(0, Math.floor((after_s - this.travel.start_s) / this.travel.step_s));
    const d = this.travel.distance_m;
    while (i < d.length - 1 && d[i + 1] < x_m) i++;
    return this.travel.start_s + (i + (x_m - d[i]) / Math.max(1e-9, d[i + 1] - d[i])) * this.travel.step_s;
  }
}
