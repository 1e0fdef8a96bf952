import { afterEach, describe, expect, test } from 'vitest';
import { formatCourse, formatNumber, formatQuantity } from '../../web/app/format.ts';
import { preferences } from '../../web/app/preferences.ts';

afterEach(() => {
  preferences.value = { length: 'm', mass: 'kg', look: 'device' };
});

describe('numbers on screen', () => {
  test('carry a true minus sign, and none on zero', () => {
    expect(formatNumber(-1.26, 1)).toBe('−1.3');
    expect(formatNumber(-0.04, 1)).toBe('0.0');
    expect(formatNumber(null, 1)).toBe('–');
  });

  test('show 1.96 standard uncertainties', () => {
    expect(formatQuantity('contact_time_ms', 112.4, 2)).toBe('112 ± 4 ms');
  });

  test('gain a decimal where the uncertainty would round to nothing', () => {
    expect(formatQuantity('contact_time_ms', 112.4, 0.2)).toBe('112.4 ± 0.4 ms');
  });

  test('turn steps into feet for a user of yards, with their uncertainty', () => {
    preferences.value = { length: 'yd', mass: 'lb', look: 'device' };
    // 2 m are 6.5617 ft (international foot of 0.3048 m, 1959 agreement).
    expect(formatQuantity('step_length_m', 2, 0.1)).toBe('6.56 ± 0.64 ft');
    expect(formatQuantity('distance_m', 9.144)).toBe('10.00 yd');
  });
});

describe('formatCourse', () => {
  test('names a course as it was laid out', () => {
    expect(formatCourse(36.576)).toBe('40 yd');
    expect(formatCourse(60)).toBe('60 m');
    expect(formatCourse(33.333)).toBe('33.33 m');
  });

  test('prefers the unit of the user where two are whole', () => {
    preferences.value = { length: 'ft', mass: 'kg', look: 'device' };
    expect(formatCourse(36.576)).toBe('120 ft');
  });
});
