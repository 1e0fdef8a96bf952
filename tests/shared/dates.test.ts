import { describe, expect, it } from 'vitest';
import { addDays, ageAt, dateOfDay, dayNumber, daysBetween, localDate } from '../../shared/dates.ts';

describe('dates', () => {
  it('agree with the calendar of the runtime on every day of four centuries', () => {
    // ECMA-262, 21.4.1: days of the proleptic Gregorian calendar, counted from 1970-01-01.
    const differing: string[] = [];
    for (let day = -62_000; day < 85_000; day++) {
      const date = new Date(day * 86_400_000).toISOString().slice(0, 10);
      if (dayNumber(date) !== day || dateOfDay(day) !== date) differing.push(date);
    }
    expect(differing).toEqual([]);
  });

  it('are counted and moved without a time zone', () => {
    expect(daysBetween('2026-03-28', '2026-03-30')).toBe(2);
    expect(daysBetween('2026-03-30', '2026-03-28')).toBe(-2);
    expect(addDays('2024-02-28', 1)).toBe('2024-02-29');
    expect(addDays('2026-01-01', -1)).toBe('2025-12-31');
  });

  it('give completed years: a birthday counts from its morning on', () => {
    expect(ageAt('2010-06-15', '2026-06-14')).toBe(15);
    expect(ageAt('2010-06-15', '2026-06-15')).toBe(16);
  });

  it('name the day where the device is, not the day in Greenwich', () => {
    // Nine in the evening at UTC-5: in Greenwich it is two in the morning of the next day.
    const evening = { getFullYear: () => 2026, getMonth: () => 5, getDate: () => 30 };
    expect(localDate(evening)).toBe('2026-06-30');
  });
});
