import { expect, test } from 'vitest';
import { summariseQuantity } from '../../../dsp/repetitions/summary.ts';
import { contactRows } from '../../helpers/contact-rows.ts';

const rows = contactRows(
  Array.from({ length: 16 }, (_, i) => ({
    side: i % 2 === 0 ? ('left' as const) : ('right' as const),
    touchdown_s: i * 0.25,
    toe_off_s: i * 0.25 + 0.12 + (i % 4) * 0.002,
  })),
);

test('many contacts average the scatter of contact times away', () => {
  const summary = summariseQuantity(rows, 'contact_time_ms')!;
  expect(summary.mean_u).toBeLessThan(summary.sd);
  expect(summary.mean_u).toBeGreaterThanOrEqual(summary.sd / 4);
});

test('but not an error that all contacts share: the zero of an angle stays as uncertain as it is', () => {
  for (const row of rows) {
    row.foot_progression_deg = 6 + (row.step % 3);
    row.foot_progression_deg_u = 3.5;
  }
  expect(summariseQuantity(rows, 'foot_progression_deg')!.mean_u).toBeGreaterThanOrEqual(3.5);
});
