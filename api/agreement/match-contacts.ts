import { median } from '../../dsp/numeric/statistics.ts';
import type { Contact } from '../../shared/analysis.ts';
import { FaultError, fault } from '../../shared/fault.ts';
import type { ReferenceContact } from './read-reference.ts';

/** A contact and its reference are the same one when their touchdowns lie this close; half the shortest flight and contact. */
const REACH_S = 0.08;
/** Two systems that see the same steps agree on most of them once their clocks are right. */
const LEAST_SHARE = 0.7;

export interface Matched {
  pairs: { ours: Contact; reference: ReferenceContact }[];
  missed: ReferenceContact[];
  extra: Contact[];
  /** Added to the reference's times. */
  clock_offset_s: number;
}

/** Pairs contacts with their references, nearest first, each once, same side (unknown fits both). */
export function matchContacts(ours: Contact[], reference: ReferenceContact[], clock_offset_s: number): Matched {
  const candidates = reference.flatMap((r, i) =>
    ours.flatMap((c, k) => {
      const apart = Math.abs(c.touchdown_s - r.touchdown_s - clock_offset_s);
      const fits = r.side === 'unknown' || c.side === 'unknown' || r.side === c.side;
      return fits && apart <= REACH_S ? [{ i, k, apart }] : [];
    }),
  );
  candidates.sort((a, b) => a.apart - b.apart);
  const ofReference = new Map<number, number>();
  const used = new Set<number>();
  for (const { i, k } of candidates) {
    if (ofReference.has(i) || used.has(k)) continue;
    ofReference.set(i, k);
    used.add(k);
  }
  const first = reference[0].touchdown_s + clock_offset_s - REACH_S;
  const last = reference[reference.length - 1].touchdown_s + clock_offset_s + REACH_S;
  return {
    pairs: [...ofReference].sort(([a], [b]) => a - b).map(([i, k]) => ({ ours: ours[k], reference: reference[i] })),
    missed: reference.filter((_, i) => !ofReference.has(i)),
    // The reference says nothing of contacts before its first or after its last one.
    extra: ours.filter((c, k) => !used.has(k) && c.touchdown_s >= first && c.touchdown_s <= last),
    clock_offset_s,
  };
}

/**
 * Puts a reference of unrelated start on the sensors' clock: of all offsets that lay one reference touchdown on one of ours,
 * the one with the most matches, then the least scatter.
 * Limits: steps are alike, so a reference of few steps may fit in several places; it is refused when a second place fits as well.
 * @throws FaultError REFERENCE_NOT_ALIGNED
 */
export function findClockOffset(ours: Contact[], reference: ReferenceContact[], recording: string): number {
  const probes = [reference[0], reference[Math.floor(reference.length / 2)], reference[reference.length - 1]];
  const offsets = probes.flatMap((probe) =>
    ours
      .filter((c) => probe.side === 'unknown' || c.side === 'unknown' || c.side === probe.side)
      .map((c) => c.touchdown_s - probe.touchdown_s),
  );
  const tried = offsets
    .map((rough) => refine(ours, reference, rough))
    .sort((a, b) => b.matched - a.matched || a.scatter - b.scatter);
  const best = tried[0];
  if (!best || best.matched < LEAST_SHARE * reference.length)
    throw notAligned(recording, best?.matched ?? 0, reference.length);
  const second = tried.find(
    (t) =>
      Math.abs(t.offset - best.offset) > REACH_S && t.matched >= 0.9 * best.matched && t.scatter < 2 * best.scatter,
  );
  if (second) throw notAligned(recording, best.matched, reference.length, second.offset - best.offset);
  return best.offset;
}

function refine(
  ours: Contact[],
  reference: ReferenceContact[],
  rough: number,
): { offset: number; matched: number; scatter: number } {
  let offset = rough;
  let pairs = matchContacts(ours, reference, offset).pairs;
  for (let round = 0; round < 2 && pairs.length > 0; round++) {
    offset = median(pairs.map(({ ours: c, reference: r }) => c.touchdown_s - r.touchdown_s));
    pairs = matchContacts(ours, reference, offset).pairs;
  }
  const scatter =
    pairs.length > 0
      ? median(pairs.map((p) => Math.abs(p.ours.touchdown_s - p.reference.touchdown_s - offset)))
      : Number.POSITIVE_INFINITY;
  return { offset, matched: pairs.length, scatter };
}

function notAligned(recording: string, matched: number, of: number, other?: number): FaultError {
  const where = { recording, matched, reference_contacts: of };
  return new FaultError(
    other === undefined
      ? fault('REFERENCE_NOT_ALIGNED.few', { recording, matched, of }, where)
      : fault('REFERENCE_NOT_ALIGNED.two_places', { recording, apart_s: Math.abs(other) }, where),
  );
}
