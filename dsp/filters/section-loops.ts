import type { Cascade, Lane, Stretch } from './lane.ts';

// What a processor spends its time on, written out. Of each sum only the product with the last output waits for the sample before, so it
// comes last. The first section takes all gains.

/**
 * One lane through four sections.
 * @param s index of the first of them
 */
export function runFourSections(
  cascade: Cascade,
  s: number,
  { history, from: input, to }: Lane,
  { first, step, count }: Stretch,
): void {
  const from = s === 0 ? input : to;
  const gain = s === 0 ? cascade[0] : 1;
  const c = 1 + 3 * s;
  const [b1, a1, a2] = [cascade[c], cascade[c + 1], cascade[c + 2]];
  const [d1, c1, c2] = [cascade[c + 3], cascade[c + 4], cascade[c + 5]];
  const [f1, e1, e2] = [cascade[c + 6], cascade[c + 7], cascade[c + 8]];
  const [h1, g1, g2] = [cascade[c + 9], cascade[c + 10], cascade[c + 11]];
  const h = 4 * s;
  let [x1, x2, y1, y2] = [history[h], history[h + 1], history[h + 2], history[h + 3]];
  let [z1, z2, u1, u2] = [history[h + 6], history[h + 7], history[h + 10], history[h + 11]];
  let [v1, v2] = [history[h + 14], history[h + 15]];
  for (let k = 0, i = first; k < count; k += 2, i += step) {
    let x = gain * from[i];
    let y = x + x2 + b1 * x1 - a2 * y2 - a1 * y1;
    let z = y + y2 + d1 * y1 - c2 * z2 - c1 * z1;
    let u = z + z2 + f1 * z1 - e2 * u2 - e1 * u1;
    v2 = u + u2 + h1 * u1 - g2 * v2 - g1 * v1;
    x2 = x;
    y2 = y;
    z2 = z;
    u2 = u;
    to[i] = v2;
    i += step;
    x = gain * from[i];
    y = x + x1 + b1 * x2 - a2 * y1 - a1 * y2;
    z = y + y1 + d1 * y2 - c2 * z1 - c1 * z2;
    u = z + z1 + f1 * z2 - e2 * u1 - e1 * u2;
    v1 = u + u1 + h1 * u2 - g2 * v1 - g1 * v2;
    x1 = x;
    y1 = y;
    z1 = z;
    u1 = u;
    to[i] = v1;
  }
  history.set([x1, x2, y1, y2, y1, y2, z1, z2, z1, z2, u1, u2, u1, u2, v1, v2], h);
}

/**
 * One lane through three sections.
 * @param s index of the first of them
 */
export function runThreeSections(
  cascade: Cascade,
  s: number,
  { history, from: input, to }: Lane,
  { first, step, count }: Stretch,
): void {
  const from = s === 0 ? input : to;
  const gain = s === 0 ? cascade[0] : 1;
  const c = 1 + 3 * s;
  const [b1, a1, a2] = [cascade[c], cascade[c + 1], cascade[c + 2]];
  const [d1, c1, c2] = [cascade[c + 3], cascade[c + 4], cascade[c + 5]];
  const [f1, e1, e2] = [cascade[c + 6], cascade[c + 7], cascade[c + 8]];
  const h = 4 * s;
  let [x1, x2, y1, y2] = [history[h], history[h + 1], history[h + 2], history[h + 3]];
  let [z1, z2, u1, u2] = [history[h + 6], history[h + 7], history[h + 10], history[h + 11]];
  for (let k = 0, i = first; k < count; k += 2, i += step) {
    let x = gain * from[i];
    let y = x + x2 + b1 * x1 - a2 * y2 - a1 * y1;
    let z = y + y2 + d1 * y1 - c2 * z2 - c1 * z1;
    u2 = z + z2 + f1 * z1 - e2 * u2 - e1 * u1;
    x2 = x;
    y2 = y;
    z2 = z;
    to[i] = u2;
    i += step;
    x = gain * from[i];
    y = x + x1 + b1 * x2 - a2 * y1 - a1 * y2;
    z = y + y1 + d1 * y2 - c2 * z1 - c1 * z2;
    u1 = z + z1 + f1 * z2 - e2 * u1 - e1 * u2;
    x1 = x;
    y1 = y;
    z1 = z;
    to[i] = u1;
  }
  history.set([x1, x2, y1, y2, y1, y2, z1, z2, z1, z2, u1, u2], h);
}

/**
 * One lane through two sections.
 * @param s index of the first of them
 */
export function runTwoSections(
  cascade: Cascade,
  s: number,
  { history, from: input, to }: Lane,
  { first, step, count }: Stretch,
): void {
  const from = s === 0 ? input : to;
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

/**
 * Two lanes through one section.
 * @param s its index
 */
export function runTwoLanes(
  cascade: Cascade,
  s: number,
  { history, from: input, to }: Lane,
  { history: otherHistory, from: otherInput, to: otherTo }: Lane,
  { first, step, count }: Stretch,
): void {
  const from = s === 0 ? input : to;
  const otherFrom = s === 0 ? otherInput : otherTo;
  const gain = s === 0 ? cascade[0] : 1;
  const [b1, a1, a2] = [cascade[1 + 3 * s], cascade[2 + 3 * s], cascade[3 + 3 * s]];
  const h = 4 * s;
  let [x1, x2, y1, y2] = [history[h], history[h + 1], history[h + 2], history[h + 3]];
  let [u1, u2, v1, v2] = [otherHistory[h], otherHistory[h + 1], otherHistory[h + 2], otherHistory[h + 3]];
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
  history.set([x1, x2, y1, y2], h);
  otherHistory.set([u1, u2, v1, v2], h);
}

/**
 * One lane through one section.
 * @param s its index
 */
export function runSection(
  cascade: Cascade,
  s: number,
  { history, from: input, to }: Lane,
  { first, step, count }: Stretch,
): void {
  const from = s === 0 ? input : to;
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
