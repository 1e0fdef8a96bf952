/** Fits a second stage to examples, and judges it on runners that were left out. */
import { calibrate, type LeftOutError } from '../../../dsp/learned/calibrate.ts';
import type { ContactModel, Interval } from '../../../dsp/learned/contact-model.ts';
import { fitKernel } from '../../../dsp/learned/fit-kernel.ts';
import { growBoosted } from '../../../dsp/learned/grow-boosted.ts';
import { growForest } from '../../../dsp/learned/grow-forest.ts';
import type { Lesson } from '../../../dsp/learned/growing-trees.ts';
import { askModel, heardTogether, type Learned } from '../../../dsp/learned/second-stage.ts';
import { SHAPE_PLACES, strideShape } from '../../../dsp/learned/stride-shape.ts';
import { median, quantile } from '../../../dsp/numeric/statistics.ts';
import { makeRandom, type Random } from '../../../seeds/random.ts';
import type { Mounting } from '../../../shared/words.ts';
import { type Example, SCALES } from './lessons.ts';

export const FOREST = { trees: 36, leaf: 10, tried: 0.25 };
/** Of left-out fits: as many do to judge by. */
export const QUICK_FOREST = { ...FOREST, trees: 16 };

const KERNEL = {
  points: 500,
  components: 40,
  narrowness: 0.3,
  own_variance: 0.03,
  runner_variance: 0.1,
  levelling: 0.5,
};

const SEED = 11;

type Channels = ContactModel['channels'];
type Intervals = Pick<ContactModel, 'intervals' | 'first_later_s' | 'first_stage'>;

const NO_INTERVAL: Interval = { floor_s: 0, per_spread: 0, factor: 1, repeatable: 1 };
const NO_INTERVALS: Intervals = {
  intervals: { touchdown: NO_INTERVAL, toe_off: NO_INTERVAL, contact_time: NO_INTERVAL },
  first_later_s: { touchdown: 0, toe_off: 0 },
  first_stage: { touchdown: 1, toe_off: 1, contact_time: 1 },
};

/** Shallow and many: deeper ones gained nothing on left-out runners. */
const BOOSTING = { trees: 800, depth: 2, rate: 0.05, leaf: 20, seen: 0.5, tried: 0.1 };

/** A model without intervals. */
export function fitModel(
  examples: readonly Example[],
  mounting: Mounting,
  channels: Channels,
  forest = FOREST,
): ContactModel {
  const random = makeRandom(SEED);
  const chance = (): number => random.uniform(0, 1);
  const anchored = (sds: readonly number[]): Lesson =>
    lessonOf(examples.flatMap((e) => sds.flatMap((sd) => anchoredBadly(e, sd, channels, random))));
  const scales = SCALES[channels];
  const widths = scales.map(() => SHAPE_PLACES);
  return {
    mounting,
    channels,
    scales,
    kernel: fitKernel(
      examples.map(({ shape }) => shape),
      Float64Array.from(examples, (e) => about(e, e.touchdown_s, e.anchor_s)),
      examples.map(({ runner }) => runner),
      widths,
      KERNEL,
      chance,
    ),
    // The trees are asked about a touchdown that is nearly right, and must tell one that is not.
    forest: growForest(anchored([NEARLY, NEARLY, ASTRAY[channels]]), forest, chance),
    // Boosted trees would spend themselves on anchors that are far off.
    boosted: growBoosted(anchored([NEARLY / 2, NEARLY, 2 * NEARLY]), BOOSTING, chance),
    ...NO_INTERVALS,
  };
}

/** How far the trees are shown anchors that are off, standard deviation in strides, at most 2.5 of them: as a kernel may be off on a stranger. */
const NEARLY = 0.008;
/** See `NEARLY`: as a first stage may misread a landing. */
const ASTRAY = { gyroscope: 0.03, accelerometer: 0.08 };

/** An example about another anchor than the first stage's. */
interface Anchored {
  e: Example;
  anchor_s: number;
  shape: Int16Array;
}

const about = (e: Example, instant_s: number, anchor_s: number): number =>
  (instant_s - anchor_s) / e.found.shape.stride_s;

function lessonOf(anchored: readonly Anchored[]): Lesson {
  return {
    shapes: anchored.map(({ shape }) => shape),
    touchdown: Float64Array.from(anchored, ({ e, anchor_s }) => about(e, e.touchdown_s, anchor_s)),
    toe_off: Float64Array.from(anchored, ({ e, anchor_s }) => about(e, e.toe_off_s, anchor_s)),
  };
}

/** An example about an anchor that is off by chance; none where the recording does not reach so far. */
function anchoredBadly(e: Example, sd_strides: number, channels: Channels, random: Random): Anchored[] {
  const { contact, shape: columns } = e.found;
  const anchor_s = e.touchdown_s + random.within(0, sd_strides, 2.5) * columns.stride_s;
  const shape = strideShape(columns, anchor_s, contact.toe_off_s, SCALES[channels]);
  return shape ? [{ e, anchor_s, shape }] : [];
}

/** What a model that never saw the runner says of an example. */
export interface LeftOut {
  example: Example;
  learned: Learned | null;
}

/** So many runners are left out at once: fewer fits, each from fewer runners than what ships. */
const LEFT_OUT_TOGETHER = 2;

/** Every runner's examples by a model of others'. @param rest examples that are learned from in every fit */
export function leaveOneOut(
  examples: readonly Example[],
  rest: readonly Example[],
  mounting: Mounting,
  channels: Channels,
  onFold?: (runner: string, model: ContactModel) => void,
): LeftOut[] {
  const runners = [...new Set(examples.map(({ runner }) => runner))];
  const groups = Array.from({ length: Math.ceil(runners.length / LEFT_OUT_TOGETHER) }, (_, k) =>
    runners.slice(k * LEFT_OUT_TOGETHER, (k + 1) * LEFT_OUT_TOGETHER),
  );
  return groups.flatMap((group) => {
    const others = thinned(examples.filter((e) => !group.includes(e.runner)));
    const model = fitModel([...others, ...rest], mounting, channels, QUICK_FOREST);
    for (const runner of group) onFold?.(runner, model);
    const own = examples.filter((e) => group.includes(e.runner));
    return own.map((example) => ({ example, learned: askModel(example.found, model) }));
  });
}

/** Contacts of one runner are much alike: this many of each runner teach as much as all. */
const PER_RUNNER = 75;

export function thinned(examples: readonly Example[]): Example[] {
  const runners = [...new Set(examples.map(({ runner }) => runner))];
  return runners.flatMap((runner) => {
    const own = examples.filter((e) => e.runner === runner);
    const count = Math.min(own.length, PER_RUNNER);
    return Array.from({ length: count }, (_, k) => own[Math.floor((k * own.length) / count)]);
  });
}

/** Intervals, and the distance that is usual for a new runner, from left-out answers. */
export function withIntervals(model: ContactModel, answers: readonly LeftOut[]): ContactModel {
  const first_later_s = firstLater(answers);
  const errors = (of: (l: Learned, e: Example) => [number, number]): LeftOutError[] =>
    answers.flatMap(({ example, learned }) => {
      if (!learned) return [];
      const [error_s, spread_s] = of(heardTogether(learned, example.found.contact, { first_later_s }), example);
      return [{ error_s, spread_s, runner: example.runner, foot: example.foot }];
    });
  const usual = quantile(
    answers.flatMap(({ learned }) => (learned ? [learned.novelty] : [])),
    0.95,
  );
  return {
    ...model,
    kernel: { ...model.kernel, usual },
    intervals: {
      touchdown: calibrate(errors((l, e) => [l.touchdown_s - e.touchdown_s, l.touchdown_spread_s])),
      toe_off: calibrate(errors((l, e) => [l.toe_off_s - e.toe_off_s, l.toe_off_spread_s])),
      contact_time: calibrate(
        errors((l, e) => [
          l.toe_off_s - l.touchdown_s - (e.toe_off_s - e.touchdown_s),
          Math.hypot(l.touchdown_spread_s, l.toe_off_spread_s),
        ]),
      ),
    },
    first_later_s,
    first_stage: firstStage(answers.map(({ example }) => example)),
  };
}

/** What the first stage has later than the model, in the middle of the left-out contacts. */
function firstLater(answers: readonly LeftOut[]): ContactModel['first_later_s'] {
  const middle = (of: (l: Learned, c: Example['found']['contact']) => number | null): number =>
    median(answers.flatMap(({ example, learned }) => (learned ? (of(learned, example.found.contact) ?? []) : [])));
  return {
    touchdown: middle((l, c) => c.touchdown_s - l.touchdown_s),
    toe_off: middle((l, c) => (c.toe_off_s === null ? null : c.toe_off_s - l.toe_off_s)),
  };
}

/** What the first stage's own uncertainties must be multiplied by to hold 95 % of its errors; never less than 1. */
function firstStage(examples: readonly Example[]): ContactModel['first_stage'] {
  const factor = (share: (e: Example) => number | null): number =>
    Math.max(
      1,
      quantile(
        examples.map(share).filter((s) => s !== null),
        0.95,
      ) / 1.96,
    );
  return {
    touchdown: factor(
      ({ found: { contact: c }, touchdown_s }) => Math.abs(c.touchdown_s - touchdown_s) / c.touchdown_s_u,
    ),
    toe_off: factor(({ found: { contact: c }, toe_off_s }) =>
      c.toe_off_s === null || c.toe_off_s_u === null ? null : Math.abs(c.toe_off_s - toe_off_s) / c.toe_off_s_u,
    ),
    contact_time: factor(({ found: { contact: c }, touchdown_s, toe_off_s }) =>
      c.toe_off_s === null || c.contact_time_s_u === null
        ? null
        : Math.abs(c.toe_off_s - c.touchdown_s - (toe_off_s - touchdown_s)) / c.contact_time_s_u,
    ),
  };
}
