import type { Phase, Side } from '../../shared/words.ts';
import type { Random } from '../random.ts';
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

/** The other foot. */
export const OTHER = { left: 'right', right: 'left' } as const;

/** Feet on the ground and the body's travel, built up in time order. */
export class StepGround {
  readonly plants: Plant[] = [];
  readonly travel: Travel;
  protected readonly runner: Runner;
  protected readonly random: Random;
  /** The foot that is on the ground now, per side: index into `plants`, or null. */
  readonly standing: { left: number | null; right: number | null } = { left: null, right: null };

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

  /** Lets the body travel on at the given speed. */
  advance(until_s: number, speed: (time_s: number) => number): void {
    while (this.now_s < until_s - 1e-9) {
      const v = speed(this.now_s + this.travel.step_s);
      this.travel.distance_m.push(this.x_m + ((v + this.speed_mps) / 2) * this.travel.step_s);
      this.travel.speed_mps.push(v);
    }
  }

  /** Puts a foot down. */
  place(plant: Plant): void {
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

  /** Takes the foot that is down off the ground at the given time. */
  leave(side: 'left' | 'right', toe_off_s: number): void {
    const index = this.standing[side];
    if (index !== null) this.plants[index].toe_off_s = toe_off_s;
    this.standing[side] = null;
  }

  /** Time at which the body passed a distance, by looking back along the travel. */
  timeOfDistance(x_m: number, after_s: number): number {
    let i = Math.max(0, Math.floor((after_s - this.travel.start_s) / this.travel.step_s));
    const d = this.travel.distance_m;
    while (i < d.length - 1 && d[i + 1] < x_m) i++;
    return this.travel.start_s + (i + (x_m - d[i]) / Math.max(1e-9, d[i + 1] - d[i])) * this.travel.step_s;
  }
}
