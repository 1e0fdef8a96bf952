import { ageAt, isStandIn } from '../../shared/dates.ts';

/** Greatest age given: older people could be recognised by it (Motion-BIDS: participants.tsv caps age at 89). */
const GREATEST_AGE = 89;

/** Completed years as they leave the house; null where birth date or day are not known, or the birth lies later. */
export function exportedAge(birth_date: string | null, date: string): number | null {
  const years = birth_date && !isStandIn(date) ? ageAt(birth_date, date) : -1;
  return years < 0 ? null : Math.min(GREATEST_AGE, years);
}
