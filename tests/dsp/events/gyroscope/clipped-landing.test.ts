import { describe, expect, it } from 'vitest';
import { gyroscopeContacts } from '../../../../dsp/events/gyroscope/gyroscope-contacts.ts';
import { DEFAULT_SETTINGS } from '../../../../dsp/settings/settings.ts';
import { sensorSignals } from '../../../../dsp/signals/sensor-signals.ts';
import { generateRepetition } from '../../../../seeds/generate-repetition.ts';

const made = generateRepetition({
  seed: 21,
  mountings: ['foot'],
  sensor: { rate_hz: 500 },
  repetitions: [{ effort: 1, distance_m: 20 }],
});
const samples = made.sensors.foot.left;
const signals = sensorSignals(
  { side: 'left', mounting: 'foot', samples, clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0 },
  DEFAULT_SETTINGS,
);
const contactsWith = (clipped: Uint8Array) =>
  gyroscopeContacts({ ...signals, acc_clipped: clipped }, DEFAULT_SETTINGS).map(({ contact }) => contact);

describe('acceleration at its full scale', () => {
  const clear = contactsWith(new Uint8Array(signals.length));
  const one = clear[Math.floor(clear.length / 2)];

  it('just before a touchdown may hide an earlier one: the uncertainty says so, and so does a reason', () => {
    const touched = Math.floor((one.touchdown_s - signals.start_s) * signals.rate_hz);
    const mask = new Uint8Array(signals.length);
    // Ends three samples before touchdown, so that the onset itself is as it was.
    const width = 12;
    mask.fill(1, touched - 3 - width, touched - 3);
    const found = contactsWith(mask).find((each) => Math.abs(each.touchdown_s - one.touchdown_s) < 0.05)!;
    const more = Math.sqrt(found.touchdown_s_u ** 2 - one.touchdown_s_u ** 2);
    // Anywhere in the stretch is as likely: its length over root 12.
    expect(more).toBeGreaterThan((0.9 * width) / Math.sqrt(12) / signals.rate_hz);
    expect(found.reasons.touchdown_s).toEqual({ because: 'clipped_before_touchdown' });
    expect(one.reasons.touchdown_s).toBeUndefined();
  });

  it('long before it or after it makes no touchdown less certain', () => {
    const touched = Math.floor((one.touchdown_s - signals.start_s) * signals.rate_hz);
    const reach = Math.ceil(DEFAULT_SETTINGS.grid.clip_reach_s * signals.rate_hz);
    const mask = new Uint8Array(signals.length);
    mask.fill(1, touched - reach - 12, touched - reach - 2);
    const found = contactsWith(mask).find((each) => Math.abs(each.touchdown_s - one.touchdown_s) < 0.05)!;
    expect(found.reasons.touchdown_s).toBeUndefined();
  });
});
