import type { Side } from '../../shared/words.ts';
import type { AnalysisSettings } from '../settings/settings.ts';
import type { SidedContact } from './contact-row.ts';

/** Contacts of one repetition, both feet in time order. */
export type RepetitionContacts = SidedContact[];

/** When one side was recorded, on the common clock. */
export interface RecordedSpan {
  side: Side;
  from_s: number;
  to_s: number;
  /** How much the sensor moves over a stretch within it: mean rate of turning, or motion level without gyroscope. */
  meanMotion: (from_s: number, to_s: number) => number;
  /** How long of a stretch its samples are missing, s. */
  lost_s: (from_s: number, to_s: number) => number;
}

/**
 * Groups running contacts into repetitions. A pause longer than any running stride ends one; walking, standing, jumping and
 * hopping are left out by what running is: a flight after every contact, the leg swinging through, one foot at a time, and
 * both feet by turns where both were recorded.
 * @param spans what was recorded of each side
 */
export function findRepetitions(
  contacts: SidedContact[],
  spans: readonly RecordedSpan[],
  settings: AnalysisSettings,
): RepetitionContacts[] {
  const { max_contact_gap_s, min_contacts_per_foot, least_share_per_foot, idle_part } = settings.running;
  const running = contacts
    .filter((contact) => isRunning(contact, settings))
    .sort((a, b) => a.touchdown_s - b.touchdown_s);
  const groups: RepetitionContacts[] = [];
  for (const contact of withoutOverlaps(running, settings.running.max_overlap)) {
    const last = groups.at(-1)?.at(-1);
    if (last && contact.touchdown_s - last.touchdown_s <= max_contact_gap_s) groups.at(-1)!.push(contact);
    else groups.push([contact]);
  }
  return groups.filter((group) => {
    const count = (side: Side): number => group.filter((contact) => contact.side === side).length;
    const [from, to] = [group[0].touchdown_s, group[group.length - 1].touchdown_s];
    const here = spans.filter(({ from_s, to_s }) => from_s <= from && to_s >= to);
    const most = Math.max(...here.map((span) => span.meanMotion(from, to)));
    // A foot that hangs still while the other lands is hopping; one that moves as much was only not read.
    const still = here.filter((span) => span.meanMotion(from, to) < idle_part * most).map(({ side }) => side);
    const sides = [...new Set([...still, ...group.map((contact) => contact.side)])];
    return sides.every((side) => count(side) >= Math.max(min_contacts_per_foot, least_share_per_foot * group.length));
  });
}

/**
 * True for a contact that can only be of running; see `settings.running` for the definitions.
 * @returns true also where a feature is missing that would decide: it is not held against the contact
 */
export function isRunning(contact: SidedContact, settings: AnalysisSettings): boolean {
  const s = settings.running;
  const { toe_off_s, touchdown_s, stride_s, backward_s, turn_rad, mounting } = contact;
  // Only as far as the instants are known: a toe-off that shows roughly must not cost the contact.
  const doubt_s = doubtOf(contact, contact);
  if (stride_s !== null && stride_s > s.max_stride_s) return false;
  if (toe_off_s !== null) {
    const time = toe_off_s - touchdown_s;
    if (time + doubt_s < s.min_contact_s || time - doubt_s > s.max_contact_s) return false;
    if (stride_s !== null && time + doubt_s < s.min_duty_factor * stride_s) return false;
    if (stride_s !== null && time - doubt_s > s.max_duty_factor * stride_s) return false;
  }
  if (stride_s !== null && backward_s !== null && backward_s - doubt_s > s.max_backward * stride_s) return false;
  return turn_rad === null || turn_rad >= s.min_turn_rad[mounting];
}

/** How far a toe-off may lie from another touchdown than it shows, s: two standard uncertainties. */
function doubtOf({ toe_off_s_u }: SidedContact, { touchdown_s_u }: SidedContact): number {
  return 2 * Math.hypot(toe_off_s_u ?? 0, touchdown_s_u);
}

/** Drops contacts during which the other foot is down as well: of two that overlap, neither is a running one. */
function withoutOverlaps(contacts: SidedContact[], max_overlap: number): SidedContact[] {
  const overlapping = new Set<SidedContact>();
  contacts.forEach((a, i) => {
    const b = contacts[i + 1];
    if (!b || a.side === b.side || a.toe_off_s === null || b.toe_off_s === null) return;
    const overlap = Math.min(a.toe_off_s, b.toe_off_s) - b.touchdown_s - doubtOf(a, b);
    const shorter = Math.min(a.toe_off_s - a.touchdown_s, b.toe_off_s - b.touchdown_s);
    if (overlap > max_overlap * shorter) {
      overlapping.add(a);
      overlapping.add(b);
    }
  });
  return contacts.filter((contact) => !overlapping.has(contact));
}
