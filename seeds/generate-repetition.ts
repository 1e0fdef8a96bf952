/**
 * Makes recordings of running that never happened, with the truth of every contact: an athlete stands, starts, runs,
 * slows, walks and stands again, once or several times, with a sensor on each foot and each shank. See motion/ for the
 * physics and sensor/ for what the sensors do to it. Deterministic: the same options give the same bytes.
 */
import type { SampleBlock } from '../shared/sample-block.ts';
import { STANDARD_GRAVITY_MPS2 } from '../shared/units.ts';
import type { Mounting, Phase } from '../shared/words.ts';
import { type LegMotion, moveLeg } from './motion/leg-motion.ts';
import { type RepetitionOrder, StepPlanner } from './motion/plan-repetition.ts';
import { distanceAt, type Plant } from './motion/step-ground.ts';
import { drawRunner, type Runner } from './motion/runner.ts';
import { makeRandom, type Random } from './random.ts';
import { randomRotation, readSensor, type SegmentMotion, type SensorModel } from './sensor/sensor-model.ts';

export interface TrueContact {
  repetition: number;
  side: 'left' | 'right';
  /** Vertical force rises above and falls below the threshold; seconds from the world's zero (left's first sample). */
  touchdown_s: number;
  toe_off_s: number;
  /** Distance of the body from this touchdown to the other foot's next; null for the last contact. */
  step_length_m: number | null;
  /** Foot to same foot's next place; null for the last two. */
  stride_length_m: number | null;
  speed_mps: number;
  /** Of the body from the start line at touchdown. */
  distance_m: number;
  phase: Phase | null;
  foot_pitch_touchdown_deg: number;
  foot_pitch_toe_off_deg: number;
  shank_rotation_deg: number;
  shank_angle_touchdown_deg: number;
  /** Largest vertical force over body weight: a check of plausibility. */
  peak_force_bw: number;
}

export interface TrueRepetition {
  repetition: number;
  first_movement_s: number | null;
  /** Time from first movement to the body's passing of the course's end, and of the splits asked for. */
  time_s: number | null;
  splits: { distance_m: number; split_time_s: number }[];
  top_speed_mps: number;
  time_constant_s: number | null;
}

export interface Truth {
  contacts: TrueContact[];
  repetitions: TrueRepetition[];
}

export interface GeneratedRecording {
  sensors: Record<Mounting, { left: SampleBlock; right: SampleBlock }>;
  truth: Truth;
  runner: Runner;
}

export interface GenerateOptions {
  seed: number;
  /** Another seed for all that is chance of the day, so that `seed` alone makes the person; `seed` without it. */
  chance_seed?: number;
  /** Properties that must be so; the rest is drawn from the seed. */
  runner?: Partial<Runner>;
  /** One entry a repetition. `effort` is a share of full speed. */
  repetitions?: { effort?: number; distance_m?: number; fatigue?: number; run_out_s?: number }[];
  /** Instead of repetitions: constant speed with no start and no end, as on a treadmill. */
  steady?: { speed_mps: number; duration_s: number };
  split_distances_m?: number[];
  stand_before_s?: number;
  walk_steps?: number;
  stand_after_s?: number;
  sensor?: Partial<SensorModel>;
  /** World time of the right sensor's first sample, s. */
  right_starts_late_s?: number;
  /** Which mountings to make; both by default. */
  mountings?: Mounting[];
  /** Threshold of the force that defines contact, N. */
  threshold_n?: number;
  /** Internal rate, Hz; 4000 unless speed matters more than impact ringing. */
  internal_rate_hz?: number;
}

/** A sensor of good present-day kind: 1000 Hz, 16 bit, with the ranges that sprinting needs. */
export function drawSensor(mounting: Mounting, random: Random, given: Partial<SensorModel> = {}): SensorModel {
  const foot = mounting === 'foot';
  const rate = given.rate_hz ?? 1000;
  return {
    rate_hz: rate,
    acc_range_g: 200,
    gyr_range_dps: 4000,
    has_gyroscope: true,
    bits: 16,
    lever_m: foot
      ? [random.uniform(-0.05, 0.08), random.uniform(-0.03, 0.03), random.uniform(-0.04, 0.01)]
      : [random.uniform(-0.01, 0.04), random.uniform(-0.04, 0.04), random.uniform(0.06, 0.24)],
    mounting: randomRotation(random),
    strap_hz: random.uniform(foot ? 50 : 35, foot ? 110 : 80),
    strap_damping: random.uniform(0.2, 0.5),
    bandwidth_hz: 0.4 * rate,
    acc_noise_mps2: random.uniform(0.05, 0.25),
    gyr_noise_dps: random.uniform(0.05, 0.4),
    acc_bias_mps2: [random.normal(0, 0.15), random.normal(0, 0.15), random.normal(0, 0.15)],
    gyr_bias_dps: [random.normal(0, 0.6), random.normal(0, 0.6), random.normal(0, 0.6)],
    gyr_warming_dps_per_min: random.normal(0, 0.3),
    stamp_jitter_s: 0,
    clock_drift: 0,
    lost_share: 0,
    packet_samples: 12,
    start_s: 0,
    ...given,
  };
}

export function generateRepetition(options: GenerateOptions): GeneratedRecording {
  const runner = drawRunner(makeRandom(options.seed).fork('runner'), options.runner);
  const random = makeRandom(options.chance_seed ?? options.seed);
  const plan = options.steady
    ? planSteady(runner, options.steady, random.fork('plan'))
    : planRepetitions(runner, options, random.fork('plan'));
  const rate = options.internal_rate_hz ?? 4000;
  const legs = {} as Record<'left' | 'right', LegMotion>;
  for (const side of ['left', 'right'] as const) {
    const plants = plan.planner.plants.filter((plant) => plant.side === side);
    const begin = options.steady ? Math.max(plan.start_s, plants[0].touchdown_s) : plan.start_s;
    legs[side] = moveLeg(runner, plants, plan.planner.travel, begin, plan.end_s, rate, random.fork(`leg ${side}`));
  }
  const truth = readTruth(plan, legs, options, runner.body_mass_kg);
  const sensors = {} as GeneratedRecording['sensors'];
  for (const mounting of options.mountings ?? (['foot', 'shank'] as const)) {
    sensors[mounting] = {} as { left: SampleBlock; right: SampleBlock };
    for (const side of ['left', 'right'] as const) {
      const chance = random.fork(`${mounting} ${side}`);
      const model = drawSensor(mounting, chance, {
        start_s: side === 'right' ? (options.right_starts_late_s ?? 0) : 0,
        ...options.sensor,
      });
      sensors[mounting][side] = readSensor(segmentOf(legs[side], mounting), model, plan.end_s - 0.05, chance);
    }
  }
  return { sensors, truth, runner };
}

/** The motion that a sensor on this segment rides on. */
export function segmentOf(leg: LegMotion, mounting: Mounting): SegmentMotion {
  const { start_s, rate_hz, y } = leg;
  const foot = mounting === 'foot';
  const x = foot ? leg.x : leg.x.map((value, i) => value + leg.shank_give_x[i]);
  const z = foot ? leg.z : leg.z.map((value, i) => value + leg.shank_give_z[i]);
  return {
    start_s,
    rate_hz,
    x,
    y,
    z,
    roll: foot ? leg.foot_roll : leg.shank_roll,
    pitch: foot ? leg.foot_pitch : leg.shank_pitch,
    yaw: foot ? leg.foot_yaw : leg.shank_yaw,
  };
}

interface Plan {
  planner: StepPlanner;
  start_s: number;
  end_s: number;
  orders: RepetitionOrder[];
}

const SETTLE_S = 0.7;

function planRepetitions(runner: Runner, options: GenerateOptions, random: Random): Plan {
  const planner = new StepPlanner(runner, random, -SETTLE_S);
  const front = random.pick(['left', 'right'] as const);
  planner.stand(SETTLE_S + (options.stand_before_s ?? random.uniform(1.5, 2.5)), front, 0.35);
  const orders: RepetitionOrder[] = [];
  (options.repetitions ?? [{}]).forEach((wanted, i) => {
    const order: RepetitionOrder = {
      top_speed_mps:
        runner.full_speed_mps * (wanted.effort ?? 1) * random.within(1, 0.012) * (1 - 0.6 * (wanted.fatigue ?? 0)),
      time_constant_s: runner.time_constant_s * random.within(1, 0.02),
      distance_m: wanted.distance_m ?? 36.576,
      fatigue: wanted.fatigue ?? 0,
      run_out_s: wanted.run_out_s ?? 0.15,
    };
    orders.push(order);
    if (i > 0) planner.stand(random.uniform(1.5, 2.5), front, 0.35);
    planner.repetition(order, front, i + 1);
    planner.walk(options.walk_steps ?? 7);
  });
  planner.stand(options.stand_after_s ?? 1.2, front, 0.35);
  return { planner, start_s: -SETTLE_S, end_s: planner.now_s, orders };
}

function planSteady(runner: Runner, steady: { speed_mps: number; duration_s: number }, random: Random): Plan {
  const planner = new StepPlanner(runner, random, -2.5);
  planner.steady(steady.speed_mps, steady.duration_s + 4);
  return { planner, start_s: -2.5, end_s: steady.duration_s + 0.05, orders: [] };
}

function readTruth(
  plan: Plan,
  legs: Record<'left' | 'right', LegMotion>,
  options: GenerateOptions,
  body_mass_kg: number,
): Truth {
  const threshold = options.threshold_n ?? 20;
  const { planner } = plan;
  const runs = planner.plants.filter((plant) => plant.kind === 'run');
  const contacts: TrueContact[] = [];
  /** Pitch at 40 % of each contact: its median is the foot's zero (shared/fields.ts). */
  const flat = { left: [] as number[], right: [] as number[] };
  runs.forEach((plant, k) => {
    const leg = legs[plant.side];
    const at = forceCrossings(leg, plant, threshold);
    if (!at || at.touchdown_s < 0 || at.toe_off_s > plan.end_s - 0.06) return;
    const next = runs[k + 1]?.repetition === plant.repetition ? runs[k + 1] : undefined;
    const same = runs[k + 2]?.repetition === plant.repetition ? runs[k + 2] : undefined;
    const startX = planner.repetitions[plant.repetition - 1]?.start_x_m ?? 0;
    const degrees = (column: Float64Array, t: number) =>
      (column[Math.min(column.length - 1, Math.max(0, Math.round((t - leg.start_s) * leg.rate_hz)))] * 180) / Math.PI;
    flat[plant.side].push(degrees(leg.foot_pitch, at.touchdown_s + 0.4 * (at.toe_off_s - at.touchdown_s)));
    contacts.push({
      repetition: plant.repetition,
      side: plant.side,
      touchdown_s: at.touchdown_s,
      toe_off_s: at.toe_off_s,
      step_length_m: next
        ? distanceAt(planner.travel, next.touchdown_s) - distanceAt(planner.travel, plant.touchdown_s)
        : null,
      stride_length_m: same ? same.ball_x_m - plant.ball_x_m : null,
      speed_mps: plant.speed_mps,
      distance_m: distanceAt(planner.travel, plant.touchdown_s) - startX,
      phase: plant.phase,
      foot_pitch_touchdown_deg: degrees(leg.foot_pitch, at.touchdown_s),
      foot_pitch_toe_off_deg: degrees(leg.foot_pitch, at.toe_off_s),
      shank_rotation_deg: degrees(leg.shank_pitch, at.toe_off_s) - degrees(leg.shank_pitch, at.touchdown_s),
      shank_angle_touchdown_deg: -degrees(leg.shank_pitch, at.touchdown_s),
      peak_force_bw: at.peak_n / (body_mass_kg * STANDARD_GRAVITY_MPS2),
    });
  });
  for (const contact of contacts) {
    const own = [...flat[contact.side]].sort((a, b) => a - b);
    const zero = own[Math.floor(own.length / 2)];
    contact.foot_pitch_touchdown_deg -= zero;
    contact.foot_pitch_toe_off_deg -= zero;
  }
  const repetitions: TrueRepetition[] = options.steady
    ? [
        {
          repetition: 1,
          first_movement_s: null,
          time_s: null,
          splits: [],
          top_speed_mps: options.steady.speed_mps,
          time_constant_s: null,
        },
      ]
    : planner.repetitions.map((rep, i) => ({
        repetition: i + 1,
        first_movement_s: rep.first_movement_s,
        time_s: rep.finish_s - rep.first_movement_s,
        splits: (options.split_distances_m ?? []).map((distance_m) => ({
          distance_m,
          split_time_s: planner.timeOfDistance(rep.start_x_m + distance_m, rep.first_movement_s) - rep.first_movement_s,
        })),
        top_speed_mps: plan.orders[i].top_speed_mps,
        time_constant_s: plan.orders[i].time_constant_s,
      }));
  return { contacts, repetitions };
}

/** First rise above and last fall below the threshold around the intended contact, between samples by a straight line. */
function forceCrossings(leg: LegMotion, plant: Plant, threshold: number) {
  const f = leg.force_n;
  const from = Math.max(1, Math.round((plant.touchdown_s - 0.01 - leg.start_s) * leg.rate_hz));
  const to = Math.min(f.length - 1, Math.round((plant.toe_off_s + 0.06 - leg.start_s) * leg.rate_hz));
  let first = from;
  while (first < to && f[first] <= threshold) first++;
  let last = to;
  while (last > first && f[last] <= threshold) last--;
  if (first >= to || last >= to) return null;
  let peak = 0;
  for (let i = first; i <= last; i++) peak = Math.max(peak, f[i]);
  const time = (i: number) => leg.start_s + i / leg.rate_hz;
  return {
    touchdown_s: time(first - (f[first] - threshold) / (f[first] - f[first - 1])),
    toe_off_s: time(last + (f[last] - threshold) / (f[last] - f[last + 1])),
    peak_n: peak,
  };
}
