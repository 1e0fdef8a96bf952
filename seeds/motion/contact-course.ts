/** What the body asks of one contact: landing, load and mechanics, for `runContact`. */
import { STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';
import { BALL, type ContactMechanics, type FootShape, type FootState, soleDepth } from './foot-contact.ts';
import type { Gait } from './gait.ts';
import type { Plant } from './step-ground.ts';
import type { Runner } from './runner.ts';

/** From standing, heel and knee begin to move this long before the foot leaves. */
export const HEEL_RISE_S = 0.29;
/** The foot turns faster and faster in the last instants before touchdown, with this time constant. */
export const PITCH_GROWS_S = 0.04;

/** Springs, dampers and masses of a landing: a forefoot strike carries less mass and yields less. */
export function contactMechanics(runner: Runner, speed_mps: number, gain: number): ContactMechanics {
  const forefoot = Math.min(1, Math.max(0, 0.5 + runner.strike / 2 + 0.4 * gain + 0.06 * Math.max(0, speed_mps - 4)));
  const share = 0.055 - 0.034 * forefoot;
  return {
    effective_mass_kg: share * runner.body_mass_kg,
    stiffness: (1 + 0.4 * forefoot) * 1e6 * runner.sole_stiffness,
    damping: runner.sole_damping,
    friction: 0.85,
    shear_stiffness: 9e4,
    toe_stiffness: runner.toe_stiffness,
    hold_hz: 8,
    hold_damping: 0.7,
    yield_per_kgm2: (2.4 - 1.9 * forefoot) * runner.ankle_yield,
  };
}

/** Load of the body over a contact: a skewed half sine (running) or two humps (walking), with the right impulse. */
export function bodyLoad(runner: Runner, plant: Plant, fromStanding: boolean): (time_s: number) => number {
  const weight = runner.body_mass_kg * STANDARD_GRAVITY_MPS2;
  if (plant.kind === 'stand') {
    return (t) => {
      const rise = Math.min(1, Math.max(0, (t - plant.touchdown_s) / 0.25));
      const left = plant.toe_off_s - t;
      if (left === Number.POSITIVE_INFINITY) return 0.5 * weight * rise;
      if (left <= 0) return 0;
      // A start: the push grows above standing weight and ends at toe-off.
      const push = left < HEEL_RISE_S ? 0.55 * Math.sin((Math.PI * left) / HEEL_RISE_S) : 0;
      return weight * rise * (0.5 * Math.min(1, left / 0.12) + (fromStanding ? push : 0.2 * push));
    };
  }
  const duration = plant.toe_off_s - plant.touchdown_s;
  const skew = plant.kind === 'walk' ? 1 : runner.load_skew;
  const shape = (u: number) => {
    const s = Math.PI * u ** skew;
    return plant.kind === 'walk' ? Math.sin(s) + 0.35 * Math.sin(3 * s) : Math.sin(s);
  };
  let mean = 0;
  for (let i = 0; i < 100; i++) mean += shape((i + 0.5) / 100) / 100;
  const wanted = plant.kind === 'walk' ? 0.82 : (duration + plant.flight_s) / duration;
  return (t) => {
    const u = (t - plant.touchdown_s) / duration;
    return u <= 0 || u >= 1 ? 0 : (weight * wanted * shape(u)) / mean;
  };
}

/** Where and how fast the foot meets the ground: the lowest point of its sole touches it, still moving down and forward. */
export function touchdownState(shape: FootShape, plant: Plant, gait: Gait): FootState {
  const { pitch, pitch_rate, sink, slip } = gait.touchdown;
  const ball = shape.points[BALL];
  let lowest = shape.points[0];
  for (const point of shape.points) {
    if (
      Math.sin(pitch) * point.x - Math.cos(pitch) * point.z >
      Math.sin(pitch) * lowest.x - Math.cos(pitch) * lowest.z
    ) {
      lowest = point;
    }
  }
  const rx = Math.cos(pitch) * lowest.x + Math.sin(pitch) * lowest.z;
  const rz = -Math.sin(pitch) * lowest.x + Math.cos(pitch) * lowest.z;
  const still = plant.kind === 'stand' && plant.speed_mps === 0;
  return {
    x: plant.ball_x_m - (Math.cos(pitch) * ball.x + Math.sin(pitch) * ball.z),
    z: soleDepth(shape, pitch),
    vx: still ? 0 : slip - rz * pitch_rate,
    vz: still ? 0 : -sink + rx * pitch_rate,
    ax: still ? 0 : -14 * slip,
    az: still ? 0 : 4 * sink,
    pitch,
    pitch_rate,
    pitch_acceleration: plant.kind === 'run' || plant.kind === 'walk' ? pitch_rate / PITCH_GROWS_S : 0,
  };
}
