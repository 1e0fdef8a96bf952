import { describe, expect, it } from 'vitest';
import type { FoundContact } from '../../../dsp/events/foot-contact.ts';
import type { ContactModel } from '../../../dsp/learned/contact-model.ts';
import { STEP_PART } from '../../../dsp/learned/boosted.ts';
import { LEAF_PART } from '../../../dsp/learned/forest.ts';
import { COORDINATE_PART } from '../../../dsp/learned/kernel.ts';
import { askModel, heardTogether, secondStage } from '../../../dsp/learned/second-stage.ts';
import { LEAF } from '../../../dsp/learned/trees.ts';
import { treesOf } from '../../helpers/learned.ts';

const STRIDE_S = 0.5;
/** What the model says: touchdown 4 ms later than the first stage has it, toe-off 100 ms after that. */
const LATER_S = 0.004;
const CONTACT_S = 0.1;
const FIRST_U_S = 0.0015;
const LEARNED_U_S = 0.003;

/** A model that says the same of every contact, at so great a novelty. */
function saying(novelty: number, channels: ContactModel['channels'] = 'gyroscope'): ContactModel {
  const interval = { floor_s: LEARNED_U_S, per_spread: 0, factor: 1, repeatable: 0.5 };
  return {
    mounting: 'foot',
    channels,
    scales: [1],
    kernel: {
      numbers: 1,
      centre: new Float32Array(1),
      scale: new Float32Array([1]),
      axes: new Int16Array(1),
      weight: new Float32Array(1),
      points: new Int16Array([novelty * COORDINATE_PART]),
      dual: new Float32Array(1),
      gamma: 1,
      offset: LATER_S / STRIDE_S,
      usual: 1,
    },
    forest: treesOf([0], [[LEAF, 0, (CONTACT_S / STRIDE_S) * LEAF_PART]]),
    boosted: { start: { touchdown: 0, toe_off: CONTACT_S / STRIDE_S }, trees: treesOf([], []) },
    intervals: { touchdown: interval, toe_off: interval, contact_time: interval },
    // What the first stage says is what it usually does.
    first_later_s: { touchdown: -LATER_S, toe_off: 0.11 - LATER_S - CONTACT_S },
    first_stage: { touchdown: 2, toe_off: 3, contact_time: 4 },
  };
}

/** A contact of the first stage from 10 s to 10.11 s. */
function found(sharp: number, rate_hz = 1000): FoundContact {
  return {
    contact: {
      touchdown_s: 10,
      toe_off_s: 10.11,
      touchdown_raw_s: 10,
      toe_off_raw_s: 10.11,
      touchdown_s_u: FIRST_U_S,
      toe_off_s_u: FIRST_U_S,
      contact_time_s_u: FIRST_U_S,
      contact_time_s_repeatable_u: FIRST_U_S,
      mid_contact_s: 10.05,
      confidence: 1,
      clipped: false,
      lost: false,
      swing_before_radps: 10,
      swing_after_radps: 10,
      stride_s: STRIDE_S,
      backward_s: 0.15,
      turn_rad: 2,
      reasons: {},
    },
    // Nothing moves: no burst of a landing draws the anchor anywhere.
    shape: { rate_hz, start_s: 9.5, stride_s: STRIDE_S, columns: [new Float64Array(1.5 * rate_hz)], factors: [1] },
    sharp,
    lost_u_s: { touchdown: 0, toe_off: 0 },
  };
}

describe('askModel', () => {
  it('says where touchdown is by the kernel, and toe-off by the trees about that touchdown', () => {
    const said = askModel(found(0), saying(0))!;
    expect(said.touchdown_s).toBeCloseTo(10 + LATER_S, 9);
    expect(said.toe_off_s).toBeCloseTo(10 + LATER_S + CONTACT_S, 9);
    expect(said.novelty).toBe(0);
  });

  it('says the mean of both kinds of trees, about the touchdown of the kernel, and counts what they differ by as spread', () => {
    const model = saying(0);
    // Boosted: a start of 2 ms and 94 ms, a tree that adds 4 ms and 10 ms: 6 ms and 104 ms, where the others say 0 and 100.
    const part = (ms: number): number => (STEP_PART * ms) / 1000 / STRIDE_S;
    model.boosted = {
      start: { touchdown: 0.002 / STRIDE_S, toe_off: 0.094 / STRIDE_S },
      trees: treesOf([0], [[LEAF, part(4), part(10)]]),
    };
    const said = askModel(found(0), model)!;
    expect(said.touchdown_s).toBeCloseTo(10 + LATER_S + 0.003, 9);
    expect(said.toe_off_s).toBeCloseTo(10 + LATER_S + 0.102, 9);
    expect(said.touchdown_spread_s).toBeCloseTo(0, 9);
    expect(said.toe_off_spread_s).toBeCloseTo(0.002, 9);
  });

  it('knows nothing of a stride that the recording does not reach over', () => {
    const cut = found(0);
    cut.shape = { ...cut.shape, columns: [new Float64Array(600)] };
    expect(askModel(cut, saying(0))).toBeNull();
  });
});

describe('heardTogether', () => {
  const learned = { touchdown_s: 10, toe_off_s: 10.1, touchdown_spread_s: 0, toe_off_spread_s: 0, novelty: 0 };
  const usual = { first_later_s: { touchdown: 0.001, toe_off: -0.002 } };

  it('moves the model by three tenths of what the first stage differs by beyond the usual, and of 5 ms at most', () => {
    const near = heardTogether(learned, { touchdown_s: 10.003, toe_off_s: 10.094 }, usual);
    expect([near.touchdown_s, near.toe_off_s]).toEqual([expect.closeTo(10.0006, 9), expect.closeTo(10.0988, 9)]);
    const far = heardTogether(learned, { touchdown_s: 10.05, toe_off_s: 10 }, usual);
    expect([far.touchdown_s, far.toe_off_s]).toEqual([expect.closeTo(10.0015, 9), expect.closeTo(10.0985, 9)]);
  });

  it('leaves a toe-off alone that the first stage has not', () => {
    expect(heardTogether(learned, { touchdown_s: 10.001, toe_off_s: null }, usual)).toEqual(learned);
  });
});

describe('secondStage', () => {
  it('leaves a contact as it is without a model', () => {
    const contact = found(0);
    expect(secondStage(contact, null)).toBe(contact.contact);
  });

  it('takes the word of the model where nothing is new and no impact is sharp', () => {
    const { touchdown_s, toe_off_s, touchdown_s_u, backward_s } = secondStage(found(0), saying(0));
    expect([touchdown_s, toe_off_s]).toEqual([expect.closeTo(10.004, 9), expect.closeTo(10.104, 9)]);
    expect(touchdown_s_u).toBeCloseTo(LEARNED_U_S, 9);
    // The way backward ends with toe-off, 6 ms sooner.
    expect(backward_s).toBeCloseTo(0.144, 9);
  });

  it('leaves touchdown to a sharp impact at 400 samples a second and more, and to both at 250', () => {
    expect(secondStage(found(1), saying(0))).toMatchObject({
      touchdown_s: 10,
      touchdown_s_u: expect.closeTo(FIRST_U_S, 9),
    });
    expect(secondStage(found(1, 400), saying(0)).touchdown_s).toBe(10);
    const both = secondStage(found(1, 250), saying(0));
    expect(both.touchdown_s).toBeCloseTo(10 + LATER_S / 2, 9);
    // Half sharp: the first stage alone would be wrong by one and a half times what it says. The mixture adds half their distance.
    const spread = (LEARNED_U_S ** 2 + (1.5 * FIRST_U_S) ** 2) / 2 + (LATER_S / 2) ** 2;
    expect(both.touchdown_s_u).toBeCloseTo(Math.sqrt(spread), 9);
  });

  it('doubts a sharp burst without gyroscope by as much as the model has the landing elsewhere', () => {
    const { touchdown_s, touchdown_s_u } = secondStage(found(1), saying(0, 'accelerometer'));
    expect(touchdown_s).toBe(10);
    expect(touchdown_s_u).toBeCloseTo(Math.hypot(FIRST_U_S, LATER_S), 9);
  });

  it('leaves the first stage with wider uncertainties where a contact is unlike all that was learned', () => {
    const { touchdown_s, toe_off_s, touchdown_s_u, toe_off_s_u } = secondStage(found(0), saying(6));
    expect([touchdown_s, toe_off_s]).toEqual([10, 10.11]);
    expect([touchdown_s_u, toe_off_s_u]).toEqual([expect.closeTo(2 * FIRST_U_S, 9), expect.closeTo(3 * FIRST_U_S, 9)]);
  });

  it('gives no contact time without gyroscope there, and says why', () => {
    const { toe_off_s, contact_time_s_u, reasons } = secondStage(found(0), saying(8, 'accelerometer'));
    expect([toe_off_s, contact_time_s_u]).toEqual([null, null]);
    expect(reasons).toMatchObject({ contact_time_ms: { because: 'landing_unclear' } });
  });
});
