/** Roll, yaw and side sway of one leg: small motion outside the sagittal plane, from a few turning points a stride. */
import type { Gait } from './gait.ts';
import type { Plant } from './step-ground.ts';
import type { Runner } from './runner.ts';

type TurningPoint = [time_s: number, value: number];

/** Angle that is still at its turning points, joined by quintics at rest: for the small frontal and transverse motion. */
function restfulPath(points: [number, number][]): (time_s: number) => number {
  let i = 0;
  return (t) => {
    while (i < points.length - 2 && t > points[i + 1][0]) i++;
    while (i > 0 && t < points[i][0]) i--;
    const [t0, a] = points[i];
    const [t1, b] = points[i + 1];
    const u = Math.min(1, Math.max(0, (t - t0) / (t1 - t0)));
    return a + (b - a) * u * u * u * (10 - 15 * u + 6 * u * u);
  };
}

export class SideMotion {
  readonly #rolls: TurningPoint[] = [];
  readonly #yaws: TurningPoint[] = [];
  readonly #sways: TurningPoint[] = [];
  readonly #runner: Runner;
  readonly #outward: number;

  constructor(runner: Runner, side: 'left' | 'right') {
    this.#runner = runner;
    this.#outward = side === 'left' ? 1 : -1;
  }

  /** @param off end of the contact; @param next_s touchdown of the next, or a time well after */
  addContact(plant: Plant, gait: Gait, began_s: number, off: number, next_s: number): void {
    const outward = this.#outward;
    const duration = off - began_s;
    const at = (share: number) => off + share * (next_s - off);
    const moving = plant.kind !== 'stand' || plant.speed_mps > 0;
    // Left is positive, and so is turning left: a left foot that points outward is turned left.
    const yaw = outward * ((this.#runner.toe_out_deg[plant.side] * Math.PI) / 180 + gait.toe_out);
    const width = 0.025 * this.#runner.stature_m;
    // Rolling positively lifts the left edge: a left foot that lands on its outer edge is rolled the other way.
    const onOuterEdge = -outward;
    this.#rolls.push(
      [began_s, moving ? gait.roll_touchdown * onOuterEdge : 0],
      [began_s + Math.min(0.3, 0.35 * duration), moving ? gait.roll_contact * onOuterEdge : 0],
      [off, 0.4 * gait.roll_touchdown * onOuterEdge],
      [at(0.45), 1.4 * gait.roll_touchdown * onOuterEdge],
    );
    this.#yaws.push(
      [began_s, yaw * 0.9],
      [off - 0.3 * Math.min(duration, 0.4), yaw],
      [off + 0.02, yaw * 1.2],
      [at(0.5), yaw + outward * 0.24 * gait.sway],
    );
    this.#sways.push(
      [began_s, width * outward],
      [off, width * outward],
      [at(0.4), (width + 0.05 * gait.sway) * outward],
    );
  }

  /** The three courses over the whole recording. */
  courses(start_s: number, end_s: number): Record<'roll' | 'yaw' | 'sway', (time_s: number) => number> {
    const over = (points: TurningPoint[]) =>
      restfulPath(
        [
          [start_s - 1, points[0][1]] as TurningPoint,
          ...points,
          [end_s + 2, points[points.length - 1][1]] as TurningPoint,
        ].sort((a, b) => a[0] - b[0]),
      );
    return { roll: over(this.#rolls), yaw: over(this.#yaws), sway: over(this.#sways) };
  }
}
