import { median } from '../../numeric/statistics.ts';
import type { AnalysisSettings } from '../../settings/settings.ts';
import type { SensorSignals } from '../../signals/sensor-signals.ts';
import type { FootContact, FoundContact } from '../foot-contact.ts';

/**
 * Drops what follows the last swing and is no contact of running: a foot that comes to rest and stands. Where the recording ends
 * soon after, it cannot be told by its length; but a foot that stands does not turn as one that pushes off.
 * @param found contacts of one sensor, in time order
 */
export function withoutStandingAtEnd(
  found: FoundContact[],
  signals: SensorSignals,
  settings: AnalysisSettings,
): FoundContact[] {
  const whole = found.filter(
    ({ contact }) => contact.swing_before_radps !== null && contact.swing_after_radps !== null,
  );
  if (whole.length === 0) return found;
  const usual_rad = median(whole.map(({ contact }) => turnWhileDown(contact, signals)));
  const { least_turn_at_end } = settings.swing;
  return found.filter(
    ({ contact }) =>
      contact.swing_after_radps !== null || turnWhileDown(contact, signals) / usual_rad >= least_turn_at_end,
  );
}

/** From touchdown to toe-off, forward positive, rad. */
function turnWhileDown({ touchdown_s, toe_off_s }: FootContact, { sagittal_rate, start_s, rate_hz }: SensorSignals) {
  const index = (at_s: number) => Math.round((at_s - start_s) * rate_hz);
  return sagittal_rate!.subarray(index(touchdown_s), index(toe_off_s!)).reduce((sum, rate) => sum + rate / rate_hz, 0);
}
