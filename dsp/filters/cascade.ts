import type { Section } from './section.ts';

/** One signal on its way through a cascade. */
export interface Lane {
  /** Of each section in turn: its last input, the one before it, its last output, the one before it. All gains are applied first. */
  readonly history: Float64Array;
  readonly from: Float64Array;
  /** May be `from` itself. */
  readonly to: Float64Array;
}

/**
 * A cascade as the loops below take it: columns of numbers have one type for the engine, whoever made the sections.
 * All gains together, then b1, a1 and a2 of each section.
 */
export type Cascade = Float64Array;

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
 * chains side by side, so two sections of a lane, or the only section of two lanes, share a loop. A loop takes two samples a round: the
 * new value then goes where the older of two was, and none is moved.
 *
 * @param first index of the first sample, the same for all lanes
 * @param step 1 forwards, -1 backwards
 * @param count samples to run
 */
export function runCascade(cascade: Cascade, lanes: readonly Lane[], first: number, step: 1 | -1, count: number): void {
  const pairs = sectionsIn(cascade) & ~1;
  const single = sectionsIn(cascade) > pairs;
  const even = count & ~1;
  // Counted up rather than multiplied: -1 times 0 is no integer, and an index that may be one is slow.
  let at = first;
  for (let done = 0; done < even; done += BLOCK, at += step * BLOCK) {
    const n = Math.min(BLOCK, even - done);
    for (let s = 0; s < pairs; s += 2) {
      for (const { history, from, to } of lanes)
        runTwoSections(cascade, s, history, s === 0 ? from : to, to, at, step, n);
    }
    if (!single) continue;
    let l = 0;
    for (; pairs === 0 && l + 1 < lanes.length; l += 2) {
      const [one, other] = [lanes[l], lanes[l + 1]];
      runTwoLanes(cascade, one.history, one.from, one.to, other.history, other.from, other.to, at, step, n);
    }
    for (; l < lanes.length; l++) {
      const { history, from, to } = lanes[l];
      runSection(cascade, pairs, history, pairs === 0 ? from : to, to, at, step, n);
    }
  }
  if (even < count) for (const lane of lanes) runSample(cascade, lane, step > 0 ? first + even : first - even);
}

function sectionsIn(cascade: Cascade): number {
  return (cascade.length - 1) / 3;
}

/** One sample through all sections: what the loops below do, in its plainest form. */
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

/** An even number of samples of one lane through sections `s` and `s + 1`. */
function runTwoSections(
  cascade: Cascade,
  s: number,
  history: Float64Array,
  from: Float64Array,
  to: Float64Array,
  first: number,
  step: number,
  count: number,
): void {
  const gain = s === 0 ? cascade[0] : 1;
  const c = 1 + 3 * s;
  const [b1, a1, a2] = [cascade[c], cascade[c + 1], cascade[c + 2]];
  const [d1, c1, c2] = [cascade[c + 3], cascade[c + 4], cascade[c + 5]];
  const h = 4 * s;
  let [x1, x2, y1, y2] = [history[h], history[h + 1], history[h + 2], history[h + 3]];
  let [z1, z2] = [history[h + 6], history[h + 7]];
  for (let k = 0, i = first; k < count; k += 2, i += step) {
    let x = gain * from[i];
    let y = x + x2 + b1 * x1 - a2 * y2 - a1 * y1;
    z2 = y + y2 + d1 * y1 - c2 * z2 - c1 * z1;
    x2 = x;
    y2 = y;
    to[i] = z2;
    i += step;
    x = gain * from[i];
    y = x + x1 + b1 * x2 - a2 * y1 - a1 * y2;
    z1 = y + y1 + d1 * y2 - c2 * z1 - c1 * z2;
    x1 = x;
    y1 = y;
    to[i] = z1;
  }
  history.set([x1, x2, y1, y2, y1, y2, z1, z2], h);
}

/** An even number of samples of two lanes through the only section. */
function runTwoLanes(
  cascade: Cascade,
  history: Float64Array,
  from: Float64Array,
  to: Float64Array,
  otherHistory: Float64Array,
  otherFrom: Float64Array,
  otherTo: Float64Array,
  first: number,
  step: number,
  count: number,
): void {
  const [gain, b1, a1, a2] = [cascade[0], cascade[1], cascade[2], cascade[3]];
  let [x1, x2, y1, y2] = [history[0], history[1], history[2], history[3]];
  let [u1, u2, v1, v2] = [otherHistory[0], otherHistory[1], otherHistory[2], otherHistory[3]];
  for (let k = 0, i = first; k < count; k += 2, i += step) {
    let x = gain * from[i];
    let u = gain * otherFrom[i];
    y2 = x + x2 + b1 * x1 - a2 * y2 - a1 * y1;
    v2 = u + u2 + b1 * u1 - a2 * v2 - a1 * v1;
    x2 = x;
    u2 = u;
    to[i] = y2;
    otherTo[i] = v2;
    i += step;
    x = gain * from[i];
    u = gain * otherFrom[i];
    y1 = x + x1 + b1 * x2 - a2 * y1 - a1 * y2;
    v1 = u + u1 + b1 * u2 - a2 * v1 - a1 * v2;
    x1 = x;
    u1 = u;
    to[i] = y1;
    otherTo[i] = v1;
  }
  history.set([x1, x2, y1, y2]);
  otherHistory.set([u1, u2, v1, v2]);
}

/** An even number of samples of one lane through section `s`. */
function runSection(
  cascade: Cascade,
  s: number,
  history: Float64Array,
  from: Float64Array,
  to: Float64Array,
  first: number,
  step: number,
  count: number,
): void {
  const gain = s === 0 ? cascade[0] : 1;
  const [b1, a1, a2] = [cascade[1 + 3 * s], cascade[2 + 3 * s], cascade[3 + 3 * s]];
  const h = 4 * s;
  let [x1, x2, y1, y2] = [history[h], history[h + 1], history[h + 2], history[h + 3]];
  for (let k = 0, i = first; k < count; k += 2, i += step) {
    let x = gain * from[i];
    y2 = x + x2 + b1 * x1 - a2 * y2 - a1 * y1;
    x2 = x;
    to[i] = y2;
    i += step;
    x = gain * from[i];
    y1 = x + x1 + b1 * x2 - a2 * y1 - a1 * y2;
    x1 = x;
    to[i] = y1;
  }
  history.set([x1, x2, y1, y2], h);
}
