/**
 * One ground contact as small dynamics in the sagittal plane. The foot is a rigid body whose ankle carries an effective
 * mass; heel, ball and toe rocker press into sole and soft tissue (nonlinear spring with Hunt-Crossley damping) and stick
 * or slide by Coulomb friction on a tangential spring. Muscles hold the pitch near its intended course (spring and
 * damper about it); the sharp part of the ground moment gets through, so a heel strike slaps the toes down and a forefoot
 * strike drops the heel, as seen in real recordings. The rest of the body enters as a slow load on the ankle.
 *
 * Because motion and force come from the same equations, touchdown and toe-off, defined as on a force plate by a
 * threshold of the vertical force, agree with the motion that the sensor reads: no event is painted onto a signal.
 *
 * Magnitudes: effective mass 1.7 to 6.8 % of body mass at impact, fore- to rearfoot (Lieberman et al. 2010, Nature
 * 463:531-535, from memory); sole and heel pad compress by about 10 mm under full load (common practice). Hunt and
 * Crossley 1975, J Appl Mech 42:440-445 (from memory) for the damping that grows with depth.
 *
 * Axes: x forward, z up; pitch about +y (left), so heel up and toes down is positive.
 */
import type { SmoothPath } from './smooth-path.ts';

export interface FootShape {
  /** Points of the sole that touch the ground, relative to the ankle in the foot's frame at pitch 0, metres. */
  points: readonly { x: number; z: number }[];
  /** Tip of the toes, stretched down: keeps light contact while the foot already leaves. */
  toe: { x: number; z: number };
}

/** Sole of a foot for a stature of 1.75 m, scaled. The rocker stands for the toes bending at the ball. */
export function footShape(stature_m: number): FootShape {
  const s = stature_m / 1.75;
  return {
    points: [
      { x: -0.055 * s, z: -0.085 * s },
      { x: -0.02 * s, z: -0.087 * s },
      { x: 0.13 * s, z: -0.087 * s },
      { x: 0.162 * s, z: -0.081 * s },
      { x: 0.186 * s, z: -0.069 * s },
      { x: 0.202 * s, z: -0.05 * s },
    ],
    toe: { x: 0.205 * s, z: -0.062 * s },
  };
}

/** Position of the ball of the foot, index into `FootShape.points`. */
export const BALL = 2;

export interface ContactMechanics {
  effective_mass_kg: number;
  /** Force at depth d is stiffness * d^1.5, N/m^1.5, per point. */
  stiffness: number;
  /** Hunt-Crossley damping, s/m: force is multiplied by (1 + damping * depth rate). */
  damping: number;
  friction: number;
  /** Tangential spring of sole or spikes, N/m. */
  shear_stiffness: number;
  /** Natural frequency with which muscles hold the pitch, Hz, and its damping ratio. */
  hold_hz: number;
  hold_damping: number;
  /** Spring of the toes, N/m: the force fades over their travel of some 15 mm instead of ending at once. */
  toe_stiffness: number;
  /** Share of the sharp ground moment that turns the foot, over its moment of inertia, 1/(kg m2). */
  yield_per_kgm2: number;
}

export interface ContactPlan {
  touchdown_s: number;
  toe_off_s: number;
  /** Intended pitch of the foot from touchdown until a little after toe-off. */
  pitch: SmoothPath;
  /** Slow load of the body on the ankle, N, from 0 at touchdown to 0 at toe-off. */
  load: (time_s: number) => number;
  /**
   * Upward and forward acceleration with which the leg picks the foot up as the load fades, m/s2: a pulse about toe-off.
   * In recordings the foot's acceleration peaks some 10 ms before the force is gone, while the toes still touch.
   */
  lift_mps2: number;
  pull_mps2: number;
  /** The pulse begins this long before the load's end, and ends that long after it. */
  pick_up_lead_s: number;
  pick_up_end_s: number;
}

export interface FootState {
  x: number;
  z: number;
  vx: number;
  vz: number;
  ax: number;
  az: number;
  pitch: number;
  pitch_rate: number;
  pitch_acceleration: number;
}

export interface ContactRun {
  /** States at the internal rate, the first one at `start_s`. */
  states: FootState[];
  start_s: number;
  /** Vertical ground force at the same instants, N. */
  force_n: Float64Array;
  /** Sharp part of the ground force, N, up and forward: drives shank, roll and soft tissue. */
  jolt_up_n: Float64Array;
  jolt_forward_n: Float64Array;
}

const SHARP_TIME_S = 0.012;
/** For this long after touchdown the ankle gives way, less and less. */
const YIELDS_S = 0.08;
const SUBSTEPS = 4;

/** Height of the lowest point of the sole below the ankle at the given pitch (a positive length). */
export function soleDepth(shape: FootShape, pitch: number): number {
  let depth = 0;
  for (const point of shape.points) depth = Math.max(depth, Math.sin(pitch) * point.x - Math.cos(pitch) * point.z);
  return depth;
}

/**
 * Runs the contact from just above the ground until the foot has left it.
 * @param start state at `start_s`, the sole at or above the ground
 * @param dt_s internal step; the equations are integrated four times finer
 * @param until_s stop here even when still on the ground (standing at the end of a recording)
 */
export function runContact(
  shape: FootShape,
  mechanics: ContactMechanics,
  plan: ContactPlan,
  start: FootState,
  start_s: number,
  dt_s: number,
  until_s = Number.POSITIVE_INFINITY,
): ContactRun {
  const h = dt_s / SUBSTEPS;
  const m = mechanics.effective_mass_kg;
  const hold = 2 * Math.PI * mechanics.hold_hz;
  const anchors = new Float64Array(shape.points.length).fill(Number.NaN);
  const shearDamping = 0.8 * Math.sqrt(mechanics.shear_stiffness * m);
  const states: FootState[] = [{ ...start }];
  const force: number[] = [0];
  const joltUp: number[] = [0];
  const joltForward: number[] = [0];
  let { x, z, vx, vz } = start;
  let pitch = start.pitch;
  let rate = start.pitch_rate;
  let slowMoment = 0;
  let slowForce = 0;
  let slowShear = 0;
  let airborne_s = 0;
  let time = start_s;
  const steps = Math.ceil((Math.min(plan.toe_off_s + 0.06, until_s) - start_s) / dt_s);
  for (let step = 1; step <= steps; step++) {
    let ax = 0;
    let az = 0;
    let pitchAcceleration = 0;
    let vertical = 0;
    let horizontal = 0;
    for (let sub = 0; sub < SUBSTEPS; sub++) {
      time += h;
      const cosine = Math.cos(pitch);
      const sine = Math.sin(pitch);
      vertical = 0;
      horizontal = 0;
      let moment = 0;
      for (let i = 0; i < shape.points.length; i++) {
        const rx = cosine * shape.points[i].x + sine * shape.points[i].z;
        const rz = -sine * shape.points[i].x + cosine * shape.points[i].z;
        const depth = -(z + rz);
        if (depth <= 0) {
          anchors[i] = Number.NaN;
          continue;
        }
        const depthRate = -(vz - rx * rate);
        const normal = Math.max(0, mechanics.stiffness * depth ** 1.5 * (1 + mechanics.damping * depthRate));
        const px = x + rx;
        if (Number.isNaN(anchors[i])) anchors[i] = px;
        const limit = mechanics.friction * normal;
        let shear = -mechanics.shear_stiffness * (px - anchors[i]) - shearDamping * (vx + rz * rate);
        if (Math.abs(shear) > limit) {
          shear = Math.sign(shear) * limit;
          anchors[i] = px + shear / mechanics.shear_stiffness;
        }
        vertical += normal;
        horizontal += shear;
        moment += rz * shear - rx * normal;
      }
      const toeDepth = sine * shape.toe.x - cosine * shape.toe.z - z;
      if (toeDepth > 0) {
        const rx = cosine * shape.toe.x + sine * shape.toe.z;
        const normal = Math.max(0, mechanics.toe_stiffness * toeDepth * (1 - 0.15 * (vz - rx * rate)));
        vertical += normal;
        moment -= rx * normal;
      }
      slowMoment += ((moment - slowMoment) * h) / SHARP_TIME_S;
      slowForce += ((vertical - slowForce) * h) / SHARP_TIME_S;
      slowShear += ((horizontal - slowShear) * h) / SHARP_TIME_S;
      const wanted = plan.pitch(time);
      // The ankle gives under the blow of landing; at push-off the calf holds it.
      const loose = Math.max(0, 1 - (time - start_s) / YIELDS_S);
      pitchAcceleration =
        wanted.acceleration -
        2 * mechanics.hold_damping * hold * (rate - wanted.rate) -
        hold * hold * (pitch - wanted.value) +
        mechanics.yield_per_kgm2 * (moment - slowMoment) * loose;
      const begun = (time - plan.toe_off_s + plan.pick_up_lead_s) / (plan.pick_up_lead_s + plan.pick_up_end_s);
      const past = begun > 0 && begun < 1 ? Math.sin(Math.PI * begun) ** 2 : 0;
      // Acceleration that the swing had at touchdown fades as the load of the body takes over.
      const fading = Math.max(0, 1 - (time - start_s) / 0.02);
      az = (vertical - plan.load(time)) / m + start.az * fading + plan.lift_mps2 * past;
      ax = horizontal / m + start.ax * fading + plan.pull_mps2 * past;
      vx += ax * h;
      vz += az * h;
      rate += pitchAcceleration * h;
      x += vx * h;
      z += vz * h;
      pitch += rate * h;
    }
    states.push({ x, z, vx, vz, ax, az, pitch, pitch_rate: rate, pitch_acceleration: pitchAcceleration });
    force.push(vertical);
    joltUp.push(vertical - slowForce);
    joltForward.push(horizontal - slowShear);
    airborne_s = vertical > 0 ? 0 : airborne_s + dt_s;
    if (time > plan.toe_off_s && airborne_s > 0.008) break;
  }
  return {
    states,
    start_s,
    force_n: Float64Array.from(force),
    jolt_up_n: Float64Array.from(joltUp),
    jolt_forward_n: Float64Array.from(joltForward),
  };
}
