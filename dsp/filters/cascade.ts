import type { Cascade, Lane, Stretch } from './lane.ts';
import type { Section } from './section.ts';
import { runFourSections, runSection, runThreeSections, runTwoLanes, runTwoSections } from './section-loops.ts';

/** Samples that go through all sections before the next ones do: they stay in the processor's nearest memory. */
const BLOCK = 1024;

/**
 * Sections ready to run.
 * @param sections in the order that they are run in
 */
export function cascadeOf(sections: readonly Section[]): Cascade {
  const gain = sections.reduce((product, section) => product * section.gain, 1);
  return Float64Array.from([gain, ...sections.flatMap(({ b1, a1, a2 }) => [b1, a1, a2])]);
}

/**
 * A lane at the beginning of a signal.
 * @param from the signal
 * @param to where it goes, of the same length
 */
export function laneOf(cascade: Cascade, from: Float64Array, to: Float64Array): Lane {
  return { history: new Float64Array(4 * sectionsIn(cascade)), from, to };
}

/**
 * Makes the history that of a cascade which has been at rest on one level for ever.
 * @param level of the input
 */
export function settleCascade(cascade: Cascade, level: number, { history }: Lane): void {
  let value = cascade[0] * level;
  for (let s = 0; s < sectionsIn(cascade); s++) {
    const [b1, a1, a2] = cascade.subarray(1 + 3 * s, 4 + 3 * s);
    history.fill(value, 4 * s, 4 * s + 2);
    value *= (2 + b1) / (1 + a1 + a2);
    history.fill(value, 4 * s + 2, 4 * s + 4);
  }
}

/**
 * Runs lanes through a cascade, from their histories on, which it leaves ready for the next samples.
 *
 * Direct form I: of all products only the one with the section's last output waits for the sample before, so a sample takes the time of
 * one multiplication and one subtraction; the transposed form has one addition more in that chain. A processor computes several such
 * chains side by side, so up to four sections of a lane, or the last one of two lanes, share a loop. A loop takes two samples a round: the
 * new value then goes where the older of two was, and none is moved.
 *
 * @param first index of the first sample, the same for all lanes
 * @param step 1 forwards, -1 backwards
 * @param count samples to run
 */
export function runCascade(cascade: Cascade, lanes: readonly Lane[], first: number, step: 1 | -1, count: number): void {
  const even = count & ~1;
  // Lane after lane, so that a processor reads and writes few places at a time; two together only where one section is left over.
  const together = isOneLeft(cascade) ? 2 : 1;
  for (let l = 0; l < lanes.length; l += together) {
    const other = together === 2 ? lanes[l + 1] : undefined;
    // Counted up rather than multiplied: -1 times 0 is no integer, and an index that may be one is slow.
    let at = first;
    for (let done = 0; done < even; done += BLOCK, at += step * BLOCK)
      runBlock(cascade, lanes[l], other, { first: at, step, count: Math.min(BLOCK, even - done) });
  }
  if (even < count) for (const lane of lanes) runSample(cascade, lane, step > 0 ? first + even : first - even);
}

/** A lane, or two, through all sections. */
function runBlock(cascade: Cascade, one: Lane, other: Lane | undefined, stretch: Stretch): void {
  const last = sectionsIn(cascade) - 1;
  for (const lane of other ? [one, other] : [one]) {
    let s = 0;
    for (; s + 3 <= last; s += 4) runFourSections(cascade, s, lane, stretch);
    if (s + 2 === last) runThreeSections(cascade, s, lane, stretch);
    else if (s + 1 === last) runTwoSections(cascade, s, lane, stretch);
  }
  if (!isOneLeft(cascade)) return;
  if (other) runTwoLanes(cascade, last, one, other, stretch);
  else runSection(cascade, last, one, stretch);
}

/** Whether a section is left over that no loop of several takes. */
function isOneLeft(cascade: Cascade): boolean {
  return sectionsIn(cascade) % 4 === 1;
}

function sectionsIn(cascade: Cascade): number {
  return (cascade.length - 1) / 3;
}

/** One sample through all sections: what the loops of whole stretches do, in its plainest form. */
function runSample(cascade: Cascade, { history, from, to }: Lane, i: number): void {
  let value = cascade[0] * from[i];
  for (let s = 0; s < sectionsIn(cascade); s++) {
    const [b1, a1, a2] = [cascade[1 + 3 * s], cascade[2 + 3 * s], cascade[3 + 3 * s]];
    const h = 4 * s;
    const y = value + history[h + 1] + b1 * history[h] - a2 * history[h + 3] - a1 * history[h + 2];
    history.copyWithin(h + 1, h, h + 1);
    history.copyWithin(h + 3, h + 2, h + 3);
    history[h] = value;
    history[h + 2] = y;
    value = y;
  }
  to[i] = value;
}
