import type { Contact } from '../../shared/analysis.ts';
import { contactRow } from '../../dsp/repetitions/contact-row.ts';
import { fillStepTimes } from '../../dsp/repetitions/step-times.ts';

export interface Instants {
  side: 'left' | 'right';
  touchdown_s: number;
  toe_off_s: number;
}

/** Rows as the analysis makes them from known instants, with step times, ready for `fillStrides`. */
export function contactRows(instants: readonly Instants[], instant_u_s = 0.002): Contact[] {
  const rows = instants.map((contact, i) =>
    contactRow(
      {
        ...contact,
        touchdown_raw_s: contact.touchdown_s,
        toe_off_raw_s: contact.toe_off_s,
        touchdown_s_u: instant_u_s,
        toe_off_s_u: instant_u_s,
        contact_time_s_u: Math.SQRT2 * instant_u_s,
        contact_time_s_repeatable_u: Math.SQRT2 * instant_u_s,
        mid_contact_s: (contact.touchdown_s + contact.toe_off_s) / 2,
        confidence: 1,
        clipped: false,
        lost: false,
        swing_before_radps: null,
        swing_after_radps: null,
        mounting: 'foot',
        stride_s: null,
        turn_rad: null,
        backward_s: null,
        reasons: {},
      },
      1,
      i + 1,
    ),
  );
  fillStepTimes(rows);
  return rows;
}
