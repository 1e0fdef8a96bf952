/**
 * Two sensors of one athlete on clocks of their own: both-feet jumps, a run, and jumps again, made by the legs and sensors of
 * seeds/. The truth is known because it is chosen: when the right sensor starts and how fast each clock runs.
 */
import { segmentOf, drawSensor } from '../../../seeds/generate-repetition.ts';
import { moveLeg } from '../../../seeds/motion/leg-motion.ts';
import { StepPlanner } from '../../../seeds/motion/plan-repetition.ts';
import { drawRunner } from '../../../seeds/motion/runner.ts';
import { makeRandom } from '../../../seeds/random.ts';
import { readSensor } from '../../../seeds/sensor/sensor-model.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';

export interface PairOptions {
  seed: number;
  mounting: 'foot' | 'shank';
  jumps_before: number;
  jumps_after?: number;
  runs?: number;
  /** Standing before anything else, at least. */
  stand_s?: number;
  /** World time of the right sensor's first sample; the left starts at 0. */
  right_starts_s: number;
  /** Rate of each clock: it counts 1 + this seconds a second. */
  left_drift?: number;
  right_drift?: number;
  rate_hz?: number;
}

export interface Pair {
  left: SampleBlock;
  right: SampleBlock;
  /** World time of a left or right clock reading. */
  world: (side: 'left' | 'right', time_s: number) => number;
  /** World time of the first and last running step. */
  run_s: [number, number];
  end_s: number;
}

export function makePair(options: PairOptions): Pair {
  const random = makeRandom(options.seed).fork('two clocks');
  const runner = drawRunner(random.fork('runner'));
  const planner = new StepPlanner(runner, random, -0.7);
  planner.stand(0.7 + Math.max(options.stand_s ?? 3, options.right_starts_s + 1.5), 'left', 0.15);
  if (options.jumps_before > 0) {
    planner.jump(options.jumps_before, 0.3, 0.4, ['left', 'right']);
    planner.stand(2.5, 'left', 0.3);
  }
  for (let run = 1; run <= (options.runs ?? 1); run++) {
    if (run > 1) planner.stand(4, 'left', 0.3);
    planner.repetition(
      {
        top_speed_mps: 0.9 * runner.full_speed_mps,
        time_constant_s: runner.time_constant_s,
        distance_m: 36.576,
        fatigue: 0,
        run_out_s: 0.15,
      },
      'left',
      run,
    );
    planner.walk(7);
  }
  planner.stand(2.5, 'left', 0.3);
  if (options.jumps_after) {
    planner.jump(options.jumps_after, 0.3, 0.4, ['left', 'right']);
    planner.stand(2, 'left', 0.3);
  }
  const end = planner.now_s;
  const starts = { left: 0, right: options.right_starts_s };
  const drifts = { left: options.left_drift ?? 0, right: options.right_drift ?? 0 };
  const blocks = {} as Record<'left' | 'right', SampleBlock>;
  for (const side of ['left', 'right'] as const) {
    const plants = planner.plants.filter((plant) => plant.side === side);
    const leg = moveLeg(runner, plants, planner.travel, -0.7, end, 4000, random.fork(`leg ${side}`));
    const chance = random.fork(side);
    const model = drawSensor(options.mounting, chance, {
      rate_hz: options.rate_hz ?? 500,
      start_s: starts[side],
      clock_drift: drifts[side],
    });
    blocks[side] = { ...readSensor(segmentOf(leg, options.mounting), model, end - 0.05, chance), clock_start_s: 0 };
  }
  const runs = planner.plants.filter((plant) => plant.kind === 'run').map((plant) => plant.touchdown_s);
  return {
    ...blocks,
    world: (side, time_s) => starts[side] + time_s / (1 + drifts[side]),
    run_s: [Math.min(...runs), Math.max(...runs)],
    end_s: end,
  };
}
