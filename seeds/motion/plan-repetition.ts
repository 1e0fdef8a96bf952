import { steadyContactTime, steadyFlightTime } from './gait.ts';
import { OTHER, StepGround } from './step-ground.ts';
import { jumpOnTheSpot, walkSteps } from './walk-and-jump.ts';

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
  /** How the speed leaves the exponential approach; none by default. */
  waves?: SpeedWaves;
}

/** Slow waves of speed about the exponential: two sines, the second half as long and half as high. */
export interface SpeedWaves {
  /** Root mean square, as a share of speed. */
  share: number;
  period_s: number;
  phases: [number, number];
}

function waveAt(t: number, { share, period_s, phases }: SpeedWaves): number {
  const angle = (2 * Math.PI * t) / period_s;
  return share * Math.sqrt(2 / 1.25) * (Math.sin(angle + phases[0]) + 0.5 * Math.sin(2 * angle + phases[1]));
}

export interface PlannedRepetition {
  first_movement_s: number;
  start_x_m: number;
  finish_s: number;
  end_s: number;
}

/** Builds plants in time order: standing, start, running, slowing, walking, standing. */
export class StepPlanner extends StepGround {
  readonly repetitions: PlannedRepetition[] = [];
  #walkSide: 'left' | 'right' = 'left';

  /** Runs from standing, and slows to a walk at the end. */
  repetition(order: RepetitionOrder, front: 'left' | 'right', number: number): void {
    const start_s = this.now_s;
    const start_x = this.x_m;
    const V = order.top_speed_mps;
    const speed = (t: number) =>
      V *
      (1 - Math.exp(-(t - start_s) / order.time_constant_s)) *
      (order.waves ? 1 + waveAt(t - start_s, order.waves) : 1);
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
    this.#walkSide = side;
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

  /** Walks a number of steps, then closes the feet and stands. */
  walk(steps: number, speed_mps = 1.35, close = true): void {
    this.#walkSide = walkSteps(this, this.random, this.#walkSide, steps, speed_mps, close);
  }

  /** Jumps on the spot, on both feet or hopping on one, from standing to standing. */
  jump(times: number, contact_s: number, flight_s: number, sides: ('left' | 'right')[]): void {
    jumpOnTheSpot(this, this.random, times, contact_s, flight_s, sides);
  }
}
