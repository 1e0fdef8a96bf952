import { ageAt } from '../../shared/dates.ts';

/** Greatest age given: older people could be recognised by it (Motion-BIDS: participants.tsv caps age at 89). */
const GREATEST_AGE = 89;

/** Completed years as they leave the house; null where the birth date is not known or lies later. */
export function exportedAge(birth_date: string | null, date: string): number | null {
  const years = birth_date ? ageAt(birth_date, date) : -1;
  return years < 0 ? null : Math.min(GREATEST_AGE, years);
}
