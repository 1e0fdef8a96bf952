import { wordsOf } from '../../helpers/told.ts';
import { describe, expect, it } from 'vitest';
import {
  contactRow,
  limitToRate,
  type SidedContact,
  withoutRoughToeOff,
} from '../../../dsp/repetitions/contact-row.ts';
import { findRepetitions, isRunning } from '../../../dsp/repetitions/find-repetitions.ts';
import { fillPhases } from '../../../dsp/repetitions/phases.ts';
import { fillStepTimes } from '../../../dsp/repetitions/step-times.ts';
import { summariseQuantity } from '../../../dsp/repetitions/summary.ts';
import { DEFAULT_SETTINGS as S } from '../../../dsp/settings/settings.ts';
import type { Contact } from '../../../shared/analysis.ts';

function contact(
  side: 'left' | 'right',
  touchdown_s: number,
  time_s = 0.12,
  more: Partial<SidedContact> = {},
): SidedContact {
  return {
    side,
    mounting: 'foot',
    touchdown_s,
    toe_off_s: touchdown_s + time_s,
    touchdown_raw_s: touchdown_s,
    toe_off_raw_s: touchdown_s + time_s,
    touchdown_s_u: 0.002,
    toe_off_s_u: 0.003,
    contact_time_s_u: Math.hypot(0.002, 0.003),
    contact_time_s_repeatable_u: Math.hypot(0.002, 0.003),
    mid_contact_s: touchdown_s + 0.4 * time_s,
    confidence: 1,
    clipped: false,
    lost: false,
    swing_before_radps: 15,
    swing_after_radps: 15,
    stride_s: 0.5,
    turn_rad: 2.4,
    backward_s: time_s + 0.05,
    reasons: {},
    ...more,
  };
}

const run = (from: number, steps: number): SidedContact[] =>
  Array.from({ length: steps }, (_, i) => contact(i % 2 ? 'right' : 'left', from + 0.25 * i));

const SPANS = (['left', 'right'] as const).map((side) => ({
  side,
  from_s: 0,
  to_s: 60,
  meanMotion: () => (side === 'left' ? 10 : 1),
  lost_s: () => 0,
}));

describe('findRepetitions', () => {
  it('takes hops on one foot, with the other recorded and still, for no running; one sensor alone may run', () => {
    const left = run(1, 10).filter((c) => c.side === 'left');
    expect(findRepetitions(left, SPANS, S)).toEqual([]);
    expect(findRepetitions(left, [SPANS[0]], S).length).toBe(1);
    const moving = SPANS.map((span) => ({ ...span, meanMotion: () => 10 }));
    expect(findRepetitions(left, moving, S).length).toBe(1);
  });

  it('leaves out two contacts that overlap by more than 30 % of the shorter, and keeps those that overlap by less', () => {
    // 120 ms each, instants known to the millisecond so that their doubt hardly counts.
    const sure = { touchdown_s_u: 1e-4, toe_off_s_u: 1e-4 };
    const overlapping = (share: number) => {
      const steps = run(1, 12).map((c) => ({ ...c, ...sure }));
      const at_s = steps[5].touchdown_s + 0.12 * (1 - share);
      steps[6] = { ...contact('left', at_s, 0.12), ...sure };
      return findRepetitions(
        steps,
        SPANS.map((span) => ({ ...span, meanMotion: () => 10 })),
        S,
      ).reduce((n, group) => n + group.length, 0);
    };
    expect(overlapping(0.25)).toBe(12);
    expect(overlapping(0.36)).toBe(10);
  });

  it('parts two runs with a walk between them', () => {
    const walk = Array.from({ length: 8 }, (_, i) =>
      contact(i % 2 ? 'right' : 'left', 4 + 0.55 * i, 0.62, { stride_s: 1.1, turn_rad: 1.5 }),
    );
    const groups = findRepetitions([...run(1, 10), ...walk, ...run(12, 8)], SPANS, S);
    expect(groups.map((group) => group.length)).toEqual([10, 8]);
  });

  it('takes no hop (little turn), no walking step (long stride or contact) and no blow (too short) for running', () => {
    expect(isRunning(contact('left', 0), S)).toBe(true);
    expect(isRunning(contact('left', 0, 0.2, { turn_rad: 0.6 }), S)).toBe(false);
    expect(isRunning(contact('left', 0, 0.35, { stride_s: 1.05 }), S)).toBe(false);
    expect(isRunning(contact('left', 0, 0.3), S)).toBe(false);
    expect(isRunning(contact('left', 0, 0.03), S)).toBe(false);
  });

  it('takes no contact of a tenth of its stride for running: sprinters have a fifth', () => {
    expect(isRunning(contact('left', 0, 0.08, { stride_s: 0.9 }), S)).toBe(false);
    expect(isRunning(contact('left', 0, 0.085, { stride_s: 0.45 }), S)).toBe(true);
  });

  it('keeps a contact whose toe-off shows so roughly that it may be a running one', () => {
    const long = { stride_s: 0.45, backward_s: 0.26 };
    expect(isRunning(contact('left', 0, 0.24, { ...long, toe_off_s_u: 0.005 }), S)).toBe(false);
    expect(isRunning(contact('left', 0, 0.24, { ...long, toe_off_s_u: 0.05 }), S)).toBe(true);
  });

  it('takes landings on both feet at once for jumping', () => {
    const jumps = Array.from({ length: 6 }, (_, i) => [
      contact('left', i * 0.5, 0.2),
      contact('right', i * 0.5 + 0.01, 0.2),
    ]);
    expect(findRepetitions(jumps.flat(), SPANS, S)).toEqual([]);
  });
});

describe('fillStepTimes', () => {
  const rows = (contacts: SidedContact[]): Contact[] => contacts.map((c, i) => contactRow(c, 1, i + 1));

  it('holds the identities: contact + flight = step time, step time x rate = 1, stride = two steps, duty below 1', () => {
    const list = rows(run(1, 6));
    fillStepTimes(list);
    for (const row of list.slice(0, 4)) {
      expect(row.contact_time_ms! + row.flight_time_ms!).toBeCloseTo(row.step_time_ms!, 9);
      expect((row.step_time_ms! / 1000) * row.step_rate_hz!).toBeCloseTo(1, 12);
      expect(row.stride_time_ms).toBeCloseTo(500, 9);
      expect(row.contact_time_ms! + row.swing_time_ms!).toBeCloseTo(row.stride_time_ms!, 9);
      expect(row.duty_factor).toBeCloseTo(120 / 500, 12);
      expect(row.assumes_symmetry).toBe(false);
    }
    expect(list.at(-1)!.step_time_ms).toBeNull();
    expect(wordsOf(list.at(-1)!.reasons.step_time_ms)).toMatch(/no following contact/);
  });

  it('assumes symmetry with one foot alone, says so, and widens the uncertainty', () => {
    const list = rows(run(1, 8).filter((c) => c.side === 'left'));
    fillStepTimes(list);
    expect(list[0].assumes_symmetry).toBe(true);
    expect(list[0].step_time_ms).toBeCloseTo(250, 9);
    expect(wordsOf(list[0].reasons.flight_time_ms)).toMatch(/one foot alone/);
    const both = rows(run(1, 8));
    fillStepTimes(both);
    expect(list[0].step_time_ms_u!).toBeGreaterThan(both[0].step_time_ms_u!);
  });

  it('leaves the step empty where a contact of the other foot is missing', () => {
    const list = rows(run(1, 8).filter((_, i) => i !== 3));
    fillStepTimes(list);
    expect(list[2].side).toBe('left');
    expect(list[2].step_time_ms).toBeNull();
    expect(list[2].stride_time_ms).toBeCloseTo(500, 9);
  });

  it('swapping the sides swaps nothing but the sides', () => {
    const list = rows(run(1, 6));
    const swapped = rows(
      run(1, 6).map((c) => ({ ...c, side: c.side === 'left' ? ('right' as const) : ('left' as const) })),
    );
    fillStepTimes(list);
    fillStepTimes(swapped);
    list.forEach((row, i) => {
      expect({ ...swapped[i], side: row.side }).toEqual(row);
    });
  });
});

describe('withoutRoughToeOff', () => {
  it('takes a contact time away that is uncertain by more than 30 ms, and leaves touchdown and any other', () => {
    const rough = contactRow(contact('left', 1, 0.15, { contact_time_s_u: 0.031 }), 1, 1);
    withoutRoughToeOff(rough, S);
    expect(rough).toMatchObject({ touchdown_s: 1, toe_off_s: null, contact_time_ms: null });
    expect(rough.reasons.contact_time_ms).toEqual({ because: 'toe_off_rough', values: { u_ms: 31 } });
    const kept = contactRow(contact('left', 1, 0.15, { contact_time_s_u: 0.03 }), 1, 1);
    withoutRoughToeOff(kept, S);
    expect(kept.contact_time_ms).toBeCloseTo(150, 9);
  });
});

describe('limitToRate', () => {
  it('leaves no contact time at 25 Hz, says why, and widens touchdown to half an interval', () => {
    const row = contactRow(contact('left', 1), 1, 1);
    limitToRate(row, 25, S);
    expect([row.toe_off_s, row.contact_time_ms, row.contact_time_ms_u]).toEqual([null, null, null]);
    expect(wordsOf(row.reasons.contact_time_ms)).toMatch(/25 samples a second/);
    expect(row.touchdown_s_u).toBeGreaterThanOrEqual(0.02);
  });

  it('leaves a 500 Hz contact as it is', () => {
    const row = contactRow(contact('left', 1), 1, 1);
    limitToRate(row, 500, S);
    expect(row).toEqual(contactRow(contact('left', 1), 1, 1));
  });
});

describe('fillPhases', () => {
  it('names acceleration, transition, maximum speed and slowing by the share of the highest speed', () => {
    const speeds = [3, 5, 6, 7, 7.6, 8, 8.3, 8.6, 8.7, 8.7, 8.7, 8.6, 8.6, 8, 7, 6];
    const rows = run(1, speeds.length).map((c, i) => ({ ...contactRow(c, 1, i + 1), speed_mps: speeds[i] }));
    fillPhases(
      rows,
      rows.map(() => null),
      S,
    );
    const order = rows.map((row) => row.phase).filter((phase, i, all) => phase !== all[i - 1]);
    expect(order).toEqual(['acceleration', 'transition', 'maximum speed', 'slowing']);
  });

  it('ends acceleration at 85 % of the highest speed and transition at 97 %', () => {
    // Three steps of each speed, so that the middle one is its own mean over three.
    const shares = [0.84, 0.86, 0.96, 0.98, 1];
    const speeds = shares.flatMap((share) => [10 * share, 10 * share, 10 * share]);
    const rows = run(1, speeds.length).map((c, i) => ({ ...contactRow(c, 1, i + 1), speed_mps: speeds[i] }));
    fillPhases(
      rows,
      rows.map(() => null),
      S,
    );
    const middles = shares.map((_, k) => rows[3 * k + 1].phase);
    expect(middles).toEqual(['acceleration', 'transition', 'transition', 'maximum speed', 'maximum speed']);
  });

  it('goes by the swing where no speed is known', () => {
    const swings = [8, 12, 16, 20, 24, 26, 27, 27, 27, 26.8, 24, 20];
    const rows = run(1, swings.length).map((c, i) => contactRow(c, 1, i + 1));
    fillPhases(rows, swings, S);
    expect(rows[0].phase).toBe('acceleration');
    expect(rows[7].phase).toBe('maximum speed');
    expect(rows.at(-1)!.phase).toBe('slowing');
  });
});

describe('summariseQuantity', () => {
  it('gives mean, SD (n - 1) and the uncertainty of the mean', () => {
    const rows = [118, 120, 122, 124].map((ms, i) => ({
      ...contactRow(contact('left', i), 1, i + 1),
      contact_time_ms: ms,
      contact_time_ms_u: 1,
    }));
    const summary = summariseQuantity(rows, 'contact_time_ms')!;
    expect(summary.mean).toBe(121);
    expect(summary.sd).toBeCloseTo(Math.sqrt(20 / 3), 12);
    expect(summary.mean_u).toBeGreaterThanOrEqual(summary.sd / 2 - 1e-12);
    expect(summary.n).toBe(4);
  });
});
