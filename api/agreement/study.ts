import { agreement, intraclassCorrelation, MCGRAW_WONG, repeatedAgreement } from '../../dsp/agreement/index.ts';
import type { Contact } from '../../shared/analysis.ts';
import type {
  AgreementPair,
  AgreementRecording,
  AgreementStudy,
  QuantityAgreement,
} from '../../shared/schemas/agreement.ts';
import { because, type Reason } from '../../shared/reason.ts';
import { VERSION } from '../version.ts';
import { findClockOffset, matchContacts } from './match-contacts.ts';
import type { ReferenceContact } from './read-reference.ts';

/** One recording with its reference. */
export interface StudyCase {
  recording: string;
  athlete: string;
  contacts: Contact[];
  reference: ReferenceContact[];
}

/** A quantity as both systems have it, in the unit of the report. */
const QUANTITIES: {
  quantity: string;
  unit: string;
  ours(c: Contact): number | null;
  uncertainty(c: Contact): number | null;
  reference(r: ReferenceContact, offset: number): number | null;
}[] = [
  {
    quantity: 'touchdown',
    unit: 'ms',
    ours: (c) => c.touchdown_s * 1000,
    uncertainty: (c) => times1000(c.touchdown_s_u),
    reference: (r, offset) => (r.touchdown_s + offset) * 1000,
  },
  {
    quantity: 'toe-off',
    unit: 'ms',
    ours: (c) => times1000(c.toe_off_s),
    uncertainty: (c) => times1000(c.toe_off_s_u),
    reference: (r, offset) => (r.toe_off_s === null ? null : (r.toe_off_s + offset) * 1000),
  },
  {
    quantity: 'contact time',
    unit: 'ms',
    ours: (c) => c.contact_time_ms,
    uncertainty: (c) => c.contact_time_ms_u,
    reference: (r) => (r.toe_off_s === null ? null : (r.toe_off_s - r.touchdown_s) * 1000),
  },
  {
    quantity: 'step length',
    unit: 'm',
    ours: (c) => c.step_length_m,
    uncertainty: (c) => c.step_length_m_u,
    reference: (r) => r.step_length_m,
  },
];

const times1000 = (value: number | null): number | null => (value === null ? null : value * 1000);

/** Instants as such have no spread between subjects that means anything: no correlation is given for them. */
const INSTANTS = ['touchdown', 'toe-off'];

/**
 * Agreement of sensors with a reference system over any number of recordings and athletes.
 * @throws FaultError REFERENCE_NOT_ALIGNED
 */
export function agreementStudy(
  cases: StudyCase[],
  reference_clock: AgreementStudy['reference_clock'],
  method: string,
): AgreementStudy {
  const recordings: AgreementRecording[] = [];
  const pairs: AgreementPair[] = [];
  const notes: Reason[] = [];
  if (reference_clock === 'unrelated') {
    notes.push(because('agreement_clocks_unrelated'));
  }
  for (const { recording, athlete, contacts, reference } of cases) {
    const offset = reference_clock === 'file' ? 0 : findClockOffset(contacts, reference, recording);
    const matched = matchContacts(contacts, reference, offset);
    recordings.push({
      recording,
      athlete,
      reference_contacts: reference.length,
      matched: matched.pairs.length,
      missed: matched.missed.length,
      extra: matched.extra.length,
      clock_offset_s: offset,
    });
    for (const { ours, reference: r } of matched.pairs) {
      for (const q of QUANTITIES) {
        const [mine, theirs] = [q.ours(ours), q.reference(r, offset)];
        if (mine === null || theirs === null) continue;
        pairs.push({
          quantity: q.quantity,
          athlete,
          recording,
          side: ours.side,
          reference: theirs,
          ours: mine,
          uncertainty: q.uncertainty(ours),
        });
      }
    }
  }
  const quantities = QUANTITIES.flatMap(({ quantity, unit }) => {
    if (reference_clock === 'unrelated' && INSTANTS.includes(quantity)) return [];
    const own = pairs.filter((pair) => pair.quantity === quantity);
    if (own.length < 3) {
      notes.push(because('agreement_too_few', { quantity, pairs: own.length }));
      return [];
    }
    return [quantityAgreement(quantity, unit, own)];
  });
  return { version: VERSION, method, reference_clock, recordings, quantities, pairs, notes };
}

function quantityAgreement(quantity: string, unit: string, pairs: AgreementPair[]): QuantityAgreement {
  const byAthlete = new Map<string, number[]>();
  for (const p of pairs) byAthlete.set(p.athlete, [...(byAthlete.get(p.athlete) ?? []), p.ours - p.reference]);
  const plain = agreement(
    pairs.map((p) => p.ours),
    pairs.map((p) => p.reference),
  );
  const repeated = byAthlete.size >= 2 ? repeatedAgreement([...byAthlete.values()]) : null;
  const stated = pairs.filter((p) => p.uncertainty !== null);
  const instant = INSTANTS.includes(quantity);
  const { bias, sd, lower_limit, upper_limit } = repeated ?? plain;
  return {
    quantity,
    unit,
    pairs: pairs.length,
    athletes: byAthlete.size,
    bias,
    sd,
    sd_between: repeated?.sd_between ?? null,
    sd_within: repeated?.sd_within ?? null,
    lower_limit,
    upper_limit,
    method: repeated ? because('agreement_repeated') : because('agreement_independent'),
    limits_within: repeated && limitsAbout(0, repeated.sd_within),
    limits_between: repeated && limitsAbout(bias.value, repeated.sd_between),
    proportional_slope: instant ? null : (plain.proportional?.slope ?? null),
    proportional_intercept: instant ? null : (plain.proportional?.intercept ?? null),
    icc: instant ? null : iccOf(pairs, '2,1'),
    icc_consistency: instant ? null : iccOf(pairs, '3,1'),
    // Of one reading, both systems sharing the scatter of their difference (Hopkins 2000).
    typical_error: sd / Math.SQRT2,
    mean_absolute_error: plain.mean_absolute_error,
    root_mean_square_error: plain.root_mean_square_error,
    coverage:
      stated.length > 0
        ? stated.filter((p) => Math.abs(p.ours - p.reference) <= 1.96 * p.uncertainty!).length / stated.length
        : null,
  };
}

const limitsAbout = (middle: number, sd: number) => ({ lower: middle - 1.96 * sd, upper: middle + 1.96 * sd });

/** Agreement or consistency of single readings, each contact a target. */
function iccOf(pairs: AgreementPair[], form: '2,1' | '3,1'): QuantityAgreement['icc'] {
  const table = pairs.map((p) => [p.ours, p.reference]);
  const { model, value, low, high } = intraclassCorrelation(table, form);
  return { form: MCGRAW_WONG[form], model: because('icc_over_contacts', { model }), value, low, high };
}
