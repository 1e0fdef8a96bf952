/**
 * A second generator of sprints, as sensors on feet or shanks would read them, made without knowledge of the first one (seeds/)
 * and of the detector (dsp/). It shares nothing with them but the units. Generated data, not outside truth: it can show where
 * the detector rests on habits of the first generator, not how exact it is on real runners.
 *
 * The hip flies ballistically and changes speed only on the ground; the foot rolls on a convex sole over a place that does not
 * move and leaves it as push-off.ts says; the leg swings through the poses of sprinting. Contact times: Blauberger, Horsch and
 * Lames 2021, Sensors 21:7331; Coh et al. 2018, Kinesiology 50:172. Truth: touchdown is the first touch of the sole, toe-off
 * the instant at which a plate's vertical force would fall through 50 N; there is no force in it (../README.md).
 */
import { drawAthlete, type Level } from './athlete.ts';
import { makeLeg } from './leg.ts';
import { addJolts, drawAttachment, drawPlace, type Mount, smoothed } from './mounting.ts';
import { Random } from './random.ts';
import type { RunPlan, Side } from './schedule.ts';
import { moveLeg } from './segments.ts';
import { attach, type Chip, record, rigidSignals } from './sensor.ts';
import { makeSession, type Session } from './session.ts';
import { makeSole } from './sole.ts';

export interface Plan {
  name: string;
  athlete: string;
  level: Level;
  mount: Mount;
  runs: RunPlan[];
  /** Metres walked back before the next run. */
  back?: number;
  chip: Partial<Chip>;
  /** Motion low-passed at 50 Hz, no strap: as from camera markers. */
  smooth?: boolean;
}

export interface Recording {
  chip: Chip;
  /** Samples of each side: seconds, then acc x y z in g and gyr x y z in deg/s. */
  sensors: Record<Side, { time: Float64Array; channels: Float64Array[] }>;
  session: Session;
}

/** Instants a second at which motion is computed before it is sampled. */
const FINE_HZ = 4000;

/** What the athlete of a plan does, and how foot and shank of both sides move, `rate` instants a second. */
export function makeMotion(plan: Plan, rate: number) {
  const athlete = drawAthlete(plan.athlete, plan.level);
  const leg = makeLeg(athlete.stature);
  const r = new Random(`recording ${plan.name}`);
  const k = athlete.stature / 1.78;
  const sole = makeSole(k, r.between(0.066, 0.082));
  const session = makeSession(
    athlete,
    leg,
    sole,
    { stand: 2.2, runs: plan.runs, back: plan.back ?? 0, straight: 3 },
    r,
  );
  const legs = {
    left: moveLeg(athlete, leg, sole, session, 'left', rate, r),
    right: moveLeg(athlete, leg, sole, session, 'right', rate, r),
  };
  return { session, legs, k, r };
}

/** Makes one recording from its plan; the same plan always gives the same numbers. */
export function makeRecording(plan: Plan): Recording {
  const { session, legs, k, r } = makeMotion(plan, FINE_HZ);
  const chip: Chip = {
    rate: 1000,
    accRange: 200,
    gyrRange: 4000,
    bits: 16,
    accNoise: r.between(1e-4, 6e-4),
    gyrNoise: r.between(0.005, 0.02),
    accBias: 0.02,
    gyrBias: 0.6,
    scale: 0.004,
    cutoff: 200,
    jitter: r.between(0, 2e-5),
    ...plan.chip,
  };
  const { place, angles } = drawPlace(plan.mount, r);
  const sensors = {} as Recording['sensors'];
  for (const side of ['left', 'right'] as const) {
    const segment = legs[side][plan.mount];
    const strap = drawAttachment(place, angles, side, k, r);
    const rigid = rigidSignals(plan.smooth ? smoothed(segment, 50, FINE_HZ) : segment, strap.offset, FINE_HZ);
    if (!plan.smooth) addJolts(rigid, session, side, plan.mount === 'foot' ? 1 : 0.35, FINE_HZ, r);
    const held = plan.smooth ? { ...strap, frequency: 900, damping: 1, rocking: 0 } : strap;
    sensors[side] = record(attach(rigid, held, FINE_HZ), chip, FINE_HZ, r);
  }
  return { chip, sensors, session };
}

/**
 * Times from first movement at which the trunk (0.2 m ahead of the hip) passes distances from the start line, which lies a
 * forearm ahead of the front foot.
 */
export function gateTimes(session: Session, run: number, distances: number[]): number[] {
  const { plan, firstMovement } = session.runs[run];
  const line = session.starts[run] + (plan.start === 'standing' ? 0.25 : 0.4);
  let t = firstMovement;
  return distances.map((distance) => {
    while (session.tracks.s.value(t) + 0.2 < line + distance) t += 0.0005;
    return t - firstMovement;
  });
}
