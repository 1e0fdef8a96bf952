import { describe, expect, test } from 'vitest';
import { commonTime, ownTime } from '../../shared/sensor-clock.ts';

/** A clock that started 2 s after the common one and gains 1 ms a second. */
const clock = { clock_offset_s: 2, clock_drift: -0.001 };

describe('a sensor clock', () => {
  test('moves by its offset at its own zero, and by its drift as time goes on', () => {
    expect(commonTime(0, clock)).toBe(2);
    expect(commonTime(100, clock)).toBeCloseTo(101.9, 12);
    expect(commonTime(100, { clock_offset_s: 2, clock_drift: 0 })).toBe(102);
  });

  test('comes back to where it was', () => {
    for (const own_s of [-3, 0, 17.25, 7200]) expect(ownTime(commonTime(own_s, clock), clock)).toBeCloseTo(own_s, 9);
  });
});
