/**
 * Makes recordings of running that never happened, with the truth of every contact: an athlete stands, starts, runs,
 * slows, walks and stands again, once or several times, with a sensor on each foot and each shank. See motion/ for the
 * physics and sensor/ for what the sensors do to it. Deterministic: the same options give the same bytes.
 */
import type { SampleBlock } from '../shared/sample-block.ts';
import type { Mounting } from '../shared/words.ts';
import { type LegMotion, moveLeg } from './motion/leg-motion.ts';
import { type RepetitionOrder, type SpeedWaves, StepPlanner } from './motion/plan-repetition.ts';
import { drawRunner, type Runner } from './motion/runner.ts';
import { makeRandom, type Random } from './random.ts';
import { CONTACT_THRESHOLD_N, readContacts, type TrueRepetition, type Truth } from './read-truth.ts';
import { drawSensor } from './sensor/draw-sensor.ts';
import { readSensor, type SegmentMotion, type SensorModel } from './sensor/sensor-model.ts';

export type { TrueContact, TrueRepetition, Truth } from './read-truth.ts';
export { drawSensor } from './sensor/draw-sensor.ts';

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
  /** How far speed leaves the exponential approach in slow waves, root mean square as a share; 0 by default. */
  speed_waves_share?: number;
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
  /** Threshold of the vertical force that defines contact, N; `CONTACT_THRESHOLD_N` by default. */
  threshold_n?: number;
  /** Internal rate, Hz; 4000 unless speed matters more than impact ringing. */
  internal_rate_hz?: number;
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
  const truth: Truth = {
    contacts: readContacts(
      plan.planner,
      legs,
      plan.end_s,
      options.threshold_n ?? CONTACT_THRESHOLD_N,
      runner.body_mass_kg,
    ),
    repetitions: trueRepetitions(plan, options),
  };
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
      ...(options.speed_waves_share && { waves: drawWaves(options.speed_waves_share, random.fork(`waves ${i}`)) }),
    };
    orders.push(order);
    if (i > 0) planner.stand(random.uniform(1.5, 2.5), front, 0.35);
    planner.repetition(order, front, i + 1);
    planner.walk(options.walk_steps ?? 7);
  });
  planner.stand(options.stand_after_s ?? 1.2, front, 0.35);
  return { planner, start_s: -SETTLE_S, end_s: planner.now_s, orders };
}

/**
 * Between the gates' times the ways over 10 m of Berlin 2009 leave the exponential by 1 %, once up and down in six seconds
 * (Graubner and Nixdorf 2011, New Studies in Athletics 26:19-53).
 */
function drawWaves(share: number, random: Random): SpeedWaves {
  const phase = () => random.uniform(0, 2 * Math.PI);
  return { share, period_s: random.within(6.5, 1), phases: [phase(), phase()] };
}

function planSteady(runner: Runner, steady: { speed_mps: number; duration_s: number }, random: Random): Plan {
  const planner = new StepPlanner(runner, random, -2.5);
  planner.steady(steady.speed_mps, steady.duration_s + 4);
  return { planner, start_s: -2.5, end_s: steady.duration_s + 0.05, orders: [] };
}

function trueRepetitions({ planner, orders }: Plan, options: GenerateOptions): TrueRepetition[] {
  return options.steady
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
        top_speed_mps: orders[i].top_speed_mps,
        time_constant_s: orders[i].time_constant_s,
      }));
}
