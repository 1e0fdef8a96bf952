import type { AnalysisSettings } from '../settings.ts';
import type { SidedContact } from './contact-row.ts';

/** Contacts of one repetition, both feet in time order. */
export type RepetitionContacts = SidedContact[];

/** Groups running contacts into repetitions: a pause longer than any flight ends one. */
export function findRepetitions(contacts: SidedContact[], settings: AnalysisSettings): RepetitionContacts[] {
  const { max_contact_gap_s, min_contacts_per_foot } = settings.running;
  const running = contacts.filter((c) => isRunning(c, settings)).sort((a, b) => a.touchdown_s - b.touchdown_s);
  const groups: RepetitionContacts[] = [];
  for (const contact of running) {
    const last = groups.at(-1)?.at(-1);
    if (last && contact.touchdown_s - last.touchdown_s <= max_contact_gap_s) groups.at(-1)!.push(contact);
    else groups.push([contact]);
  }
  return groups.filter((group) => {
    const sides = new Set(group.map((c) => c.side));
    return [...sides].every((side) => group.filter((c) => c.side === side).length >= min_contacts_per_foot);
  });
}

function isRunning(contact: SidedContact, settings: AnalysisSettings): boolean {
  const { min_contact_s, max_contact_s } = settings.running;
  if (contact.toe_off_s === null) return true;
  const time = contact.toe_off_s - contact.touchdown_s;
  return time >= min_contact_s && time <= max_contact_s;
}
