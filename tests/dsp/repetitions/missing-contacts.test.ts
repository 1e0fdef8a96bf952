import { describe, expect, it } from 'vitest';
import { contactIntervals } from '../../../dsp/repetitions/contact-intervals.ts';
import type { Side } from '../../../shared/words.ts';
import {
  added,
  type Hiding,
  hide,
  judgeMissed,
  NO_FIGURES,
  runOf,
} from '../../outside-checks/missed/missed-contacts.ts';
import { told } from '../../helpers/told.ts';
import { contactsMissed } from '../../../dsp/repetitions/missing-contacts.ts';
import { uniform } from '../../helpers/random.ts';

interface Step {
  side: Side;
  touchdown_s: number;
}

/** A start, a run and a slowing down: steps of 0.31 to 0.21 s and back to 0.3, each with some scatter. */
function sprint(seed: number, steps = 26): Step[] {
  const next = uniform(seed);
  let at = 1;
  return Array.from({ length: steps }, (_, i) => {
    const touchdown_s = at;
    const slower = Math.max(0, i - 18) / 7;
    at += (0.21 + 0.1 * Math.exp(-i / 4) + 0.09 * slower) * (0.97 + 0.06 * next());
    return { side: i % 2 === 0 ? 'left' : 'right', touchdown_s };
  });
}

const missing = (steps: Step[]): number[] => contactIntervals(steps).map((interval) => interval.missing);

describe('contactIntervals', () => {
  it('tells nothing of complete sprints, one foot or both, over 50 seeds', () => {
    for (let seed = 1; seed <= 50; seed++) {
      const steps = sprint(seed);
      const one = steps.filter(({ side }) => side === 'left');
      for (const list of [steps, one]) {
        expect(missing(list).every((count) => count === 0)).toBe(true);
        expect(contactIntervals(list).some(({ odd }) => odd)).toBe(false);
      }
    }
  });

  it('counts one to five contacts that are missing in a row, wherever they are', () => {
    for (let gone = 1; gone <= 5; gone++) {
      for (let first = 2; first + gone < 25; first++) {
        const steps = sprint(first).filter((_, i) => i < first || i >= first + gone);
        const wanted = steps.slice(1).map((_, i) => (i === first - 1 ? gone : 0));
        expect(missing(steps)).toEqual(wanted);
      }
    }
  });

  it('counts them of one foot alone, and every second contact of one of two feet', () => {
    const left = sprint(3).filter(({ side }) => side === 'left');
    expect(missing(left.filter((_, i) => i !== 5 && i !== 6))[4]).toBe(2);
    const halved = sprint(4).filter(({ side }, i) => side === 'left' || i % 4 === 1);
    expect(missing(halved).reduce((a, b) => a + b, 0)).toBe(6);
  });

  it('takes two contacts of one foot within a step for wrong, not for one that is missing', () => {
    const steps = sprint(5);
    const twice = [
      ...steps.slice(0, 12),
      { ...steps[11], touchdown_s: steps[11].touchdown_s + 0.08 },
      ...steps.slice(12),
    ];
    const interval = contactIntervals(twice)[11];
    expect(interval.missing).toBe(0);
    expect(interval.odd).toBe(true);
  });
});

describe('generated runs with contacts hidden', () => {
  const judged = (hiding: Hiding) =>
    (['foot', 'shank'] as const)
      .flatMap((mounting) => [3, 5].map((seed) => judgeMissed(hide(runOf(seed, mounting), seed, hiding))))
      .reduce(added, NO_FIGURES);

  it('nothing is told of complete ones', () => {
    const figures = judged('none');
    expect(figures.contacts).toBeGreaterThan(60);
    expect(figures.not_found + figures.false_places + figures.wrong_steps).toBe(0);
    expect(figures.late_starts_false + figures.ends_false).toBe(0);
  });

  it('every place of lost samples is told with its number, and no step reaches over it', () => {
    const figures = judged('lost');
    expect(figures.intervals).toBeGreaterThan(4);
    expect(figures.told).toBe(figures.intervals);
    expect(figures.false_places + figures.wrong_steps).toBe(0);
  });

  it('a first contact that was not found makes the second the first recorded, which is told', () => {
    const figures = judged('first');
    expect(figures.late_starts).toBeGreaterThanOrEqual(3);
    expect(figures.late_starts_told).toBeGreaterThanOrEqual(figures.late_starts - 1);
  });
});

it('the fault says how many and where', () => {
  const [fault] = contactsMissed(
    [
      { after_step: 0, contacts: 1, samples_lost: false },
      { after_step: 7, contacts: 2, samples_lost: true },
    ],
    1,
  );
  const { code, message } = told(fault);
  expect(code).toBe('CONTACTS_MISSED');
  expect(message).toContain('3 contacts were run and not found');
  expect(message).toContain('second step of the start');
  expect(message).toContain('2 after step 7 (samples were lost there)');
  expect(contactsMissed([], 1)).toEqual([]);
});
