const DAY_MS = 86_400_000;

/** A calendar day moved by a number of days. */
export function shiftDate(date: string, days: number): string {
  return new Date(Date.parse(`${date}T00:00:00Z`) + days * DAY_MS).toISOString().slice(0, 10);
}

/** Greatest age given: older people could be recognised by it (Motion-BIDS: participants.tsv caps age at 89). */
const GREATEST_AGE = 89;

/** Completed years between two days; null where the birth date is not known. */
export function ageAt(birth_date: string | null, date: string): number | null {
  if (!birth_date) return null;
  const [by, bm, bd] = birth_date.split('-').map(Number);
  const [y, m, d] = date.split('-').map(Number);
  const years = y - by - (m < bm || (m === bm && d < bd) ? 1 : 0);
  return years < 0 ? null : Math.min(GREATEST_AGE, years);
}
