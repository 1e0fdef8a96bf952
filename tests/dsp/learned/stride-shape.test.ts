/** A stride as numbers: places, scales, slope, toe-off, stride time; and the file that a model lies in. */
import { describe, expect, it } from 'vitest';
import { decodeModel, encodeModel } from '../../../dsp/learned/model-file.ts';
import { LEARNED_MODELS } from '../../../dsp/learned/learned-models.ts';
import { SHAPE, SHAPE_PLACES, shapeLength, strideShape } from '../../../dsp/learned/stride-shape.ts';
import { MOUNTINGS } from '../../../shared/words.ts';

const RATE_HZ = 400;
const STRIDE_S = 0.5;
const START_S = 20;
/** Two seconds: the first column is the time itself in seconds, the second twice as much. */
const columns = [1, 2].map((slope) => Float64Array.from({ length: 800 }, (_, i) => (slope * i) / RATE_HZ));
const shape = { rate_hz: RATE_HZ, start_s: START_S, stride_s: STRIDE_S, columns, factors: [1, 0.5] };
const ANCHOR_S = START_S + 1;

describe('the shape of a stride', () => {
  const made = strideShape(shape, ANCHOR_S, ANCHOR_S + 0.1, [1000, 1000])!;

  it('reads each column from 0.15 strides before the anchor to 0.75 after, a hundred places a stride', () => {
    expect([SHAPE.before, SHAPE.after, SHAPE.per_stride]).toEqual([0.15, 0.75, 100]);
    expect(SHAPE_PLACES).toBe(91);
    expect(made).toHaveLength(shapeLength(2));
    expect(shapeLength(2)).toBe(2 * 91 + 90 + 2);
    // At the first place it is 1 - 0.15 * 0.5 s, at the anchor's place 1 s, at the last 1 + 0.75 * 0.5 s.
    expect([made[0], made[15], made[90]]).toEqual([925, 1000, 1375]);
  });

  it('scales each column by its factor and by the model’s scale', () => {
    // The second column is twice the time, and counts half.
    expect([...made.subarray(91, 182)]).toEqual([...made.subarray(0, 91)]);
    const other = strideShape(shape, ANCHOR_S, null, [1000, 500])!;
    expect(other[91 + 15]).toBe(500);
  });

  it('gives the slope of the first column five times', () => {
    for (let j = 1; j < 91; j++) expect(made[182 + j - 1]).toBe(5 * (made[j] - made[j - 1]));
  });

  it('ends with the first stage’s toe-off in ten-thousandths of a stride, and the stride time', () => {
    expect([...made.subarray(-2)]).toEqual([2000, 5000]);
    expect(strideShape(shape, ANCHOR_S, null, [1000, 1000])!.at(-2)).toBe(-10000);
  });

  it('does not depend on the sampling rate', () => {
    const slow = {
      ...shape,
      rate_hz: 100,
      columns: [1, 2].map((slope) => Float64Array.from({ length: 200 }, (_, i) => (slope * i) / 100)),
    };
    expect(strideShape(slow, ANCHOR_S, ANCHOR_S + 0.1, [1000, 1000])).toEqual(made);
  });

  it('holds the last value a little beyond the ends, and is none beyond that', () => {
    const first_s = START_S + 0.15 * STRIDE_S;
    const within = strideShape(shape, first_s - 0.05 * STRIDE_S, null, [1000, 1000])!;
    expect([within[0], within[4], within[5], within[6]]).toEqual([0, 0, 0, 5]);
    expect(strideShape(shape, first_s - 0.07 * STRIDE_S, null, [1000, 1000])).toBeNull();
    const last_s = START_S + 799 / RATE_HZ - 0.75 * STRIDE_S;
    expect(strideShape(shape, last_s + 0.05 * STRIDE_S, null, [1000, 1000])).not.toBeNull();
    expect(strideShape(shape, last_s + 0.07 * STRIDE_S, null, [1000, 1000])).toBeNull();
  });

  it('stays within 16 bits', () => {
    const large = strideShape(shape, ANCHOR_S, null, [1e6, -1e6])!;
    expect(large[0]).toBe(32767);
    expect(large[91]).toBe(-32768);
  });

  it('a model of other columns is a mistake of the program', () => {
    expect(() => strideShape(shape, ANCHOR_S, null, [1000])).toThrow(/1 columns is asked about 2/);
  });
});

describe('the models that ship', () => {
  const models = MOUNTINGS.flatMap((mounting) =>
    (['gyroscope', 'accelerometer'] as const).map((channels) => LEARNED_MODELS.of(mounting, channels)!),
  );

  it('there is one a mounting and kind of sensor, and none is decoded twice', () => {
    expect(models).toHaveLength(4);
    expect(new Set(models).size).toBe(4);
    expect(models[0].mounting).toBe(MOUNTINGS[0]);
    expect(LEARNED_MODELS.of(MOUNTINGS[0], 'gyroscope')).toBe(models[0]);
    expect(LEARNED_MODELS.version).toMatch(/\w/);
  });

  it.each(models.map((model) => [`${model.mounting} with ${model.channels}`, model] as const))(
    'is the same when it is written and read again: %s',
    (_, model) => {
      const file = JSON.parse(JSON.stringify(encodeModel(model, 'notice')));
      expect(file.notice).toBe('notice');
      expect(decodeModel(file)).toEqual(model);
    },
  );
});
