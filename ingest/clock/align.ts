import type { Alignment, AlignmentMethod } from './alignment.ts';
import { type CodedFault, fault } from '../../shared/fault.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import { alternates, lagScore } from './alternation.ts';
import { type ClockModel, lagUncertainty } from './clock-model.ts';
import { driftBySteps } from './drift-by-steps.ts';
import { middleValue } from './middle-value.ts';
import { lookAtFeet, middleOfRunning, type TwoFeet } from './look-at-feet.ts';
import { type SharedClock, sharedClock } from './shared-clock.ts';
import { tieRestarts } from './tie-restarts.ts';
import { type ClocksFound, unrelatedClocks } from './unrelated-clocks.ts';

/** Where both columns start at zero and nothing else tells, the steps must fit this well to one clock. */
const ZERO_SCORE = 0.6;
/** Less than half a stride: a start that differed by more would be a stride off unseen. */
const ZERO_LENGTHS_S = 0.2;

/** Flight times are some 0.1 s: steps put on one clock any worse say nothing of them. */
export const MOST_U_S = 0.04;

/**
 * Puts two recordings of one athlete, left and right, on one clock: by stamps they share; else by impacts that both feet felt at
 * once, with the alternation of the steps; else by the alternation alone.
 * @returns offsets, drift and their uncertainty; `method: 'none'`, confidence 0 and a fault where it cannot be done
 * Method: shared stamps are checked against the steps (feet that fall together are on two clocks). Unrelated clocks: see
 * unrelated-clocks.ts. Limits: alternation assumes a right step like the left one, within about 1 % of a stride.
 */
export function align(left: SampleBlock, right: SampleBlock): Alignment {
  if (sameSamples(left, right)) return { ...refused(), fault: fault('SAME_RECORDING_TWICE', {}) };
  const restarted = { left: tieRestarts(left, right), right: tieRestarts(right, left) };
  if (!restarted.left && !restarted.right) return alignSteady(left, right);
  if ((restarted.left?.untied ?? 0) + (restarted.right?.untied ?? 0) > 0) return refused();
  const tied = { left: restarted.left?.block, right: restarted.right?.block };
  return { ...alignSteady(tied.left ?? left, tied.right ?? right), tied };
}

/** Two recordings whose clocks ran through. */
function alignSteady(left: SampleBlock, right: SampleBlock): Alignment {
  const shared = sharedClock(left, right);
  const feet = lookAtFeet(left, right);
  if (shared && shared.zone_h !== 0) {
    // A zone is a guess until the steps bear it out.
    const borne_out = zoneBorneOut(feet, shared);
    if (borne_out) return borne_out;
  } else if (shared) {
    const drift = shared.u > WELL_STAMPED_S ? 'one' : driftBySteps(feet, shared.lag_s);
    if (drift === 'untold') return driftedOff();
    if (drift !== 'one') return driftingApart(drift, feet, shared);
    const off_s = stampError(feet, shared);
    if (off_s > 0) {
      // Stamps are good to some uncertainty: within it, impacts and steps tell better.
      const refined = unrelatedClocks(feet, (lag_s) => Math.abs(lag_s - shared.lag_s) < off_s, shared.lag_s);
      if (refined && refined.worst_u <= MOST_U_S) return refinedStamps(refined, shared);
      if (off_s <= LARGEST_BELIEVED_S) return fromLag(shared.lag_s, 0, { ...shared, confidence: 0.6 });
    } else if (stepsAgree(feet, shared.lag_s)) return oneClock(feet, shared);
  }
  const found = unrelatedClocks(feet);
  if (found && found.worst_u > MOST_U_S && shared?.zone_h !== 0) return driftedOff();
  if (found && found.worst_u <= MOST_U_S) return fromModel(found, shared?.zone_h === 0 ? shared : null);
  if (shared && shared.zone_h === 0)
    return { ...fromLag(shared.lag_s, 0, { ...shared, confidence: 0.3 }), fault: stampsDoubted(shared) };
  return fromZero(left, right, feet) ?? refused();
}

/** Stamps that differ by whole or half hours and else fit: taken as one clock in two time zones when the feet alternate on it. */
function zoneBorneOut(feet: TwoFeet, shared: SharedClock): Alignment | null {
  const off_s = stampError(feet, shared);
  let alignment: Alignment;
  if (off_s > 0) {
    const refined = unrelatedClocks(feet, (lag_s) => Math.abs(lag_s - shared.lag_s) < off_s, shared.lag_s);
    if (!refined) return null;
    alignment = refinedStamps(refined, shared);
  } else {
    const phases = feet.steps.phases(shared.lag_s);
    if (phases.length < 3 || lagScore(phases, phases.length) < ZERO_SCORE) return null;
    alignment = fromLag(shared.lag_s, 0, { ...shared, confidence: 0.8 });
  }
  const hours = Math.abs(shared.zone_h);
  const where = { method: alignment.method, hours_apart: shared.zone_h };
  return { ...alignment, fault: fault('CLOCKS_UNCERTAIN.time_zone', { hours, doubt: alignment.fault ?? null }, where) };
}

/** Stamps written to better than this tell steps apart by themselves. */
const WELL_STAMPED_S = 0.002;
/** Two clocks that were set by hand or over a network are seldom further apart than this. */
const NETWORK_S = 0.25;
/** Phases between the feet that no healthy runner has: the stamps are off, not the steps. */
const WIDEST_PHASE = 0.06;
const LARGEST_BELIEVED_S = 0.3;

/** How far absolute stamps may be off, seconds: by how they were written, or by what the steps say; 0 where they are believed. */
function stampError(feet: TwoFeet, { method, lag_s, u }: SharedClock): number {
  if (method !== 'absolute stamps') return 0;
  if (u > WELL_STAMPED_S) return 2.5 * u + 0.02;
  const phases = feet.steps.phases(lag_s).map(({ phase }) => Math.abs(phase - 0.5));
  if (phases.length < 3) return 0;
  return middleValue(phases) > WIDEST_PHASE ? NETWORK_S : 0;
}

function refinedStamps(found: ClocksFound, shared: SharedClock): Alignment {
  const { fault: _fault, ...alignment } = fromModel(found, null);
  const moved_s = alignment.right_offset_s - alignment.left_offset_s - shared.lag_s;
  const { method, u } = found;
  return {
    ...alignment,
    confidence: Math.min(0.9, found.confidence + 0.2),
    fault: fault('CLOCKS_UNCERTAIN.stamps_refined', { method, moved_s, u_s: u }, { method }),
  };
}

/** One clock by its stamps; where the steps fall far off the middle, legs or clocks differ by so much, which is told. */
function oneClock(feet: TwoFeet, shared: SharedClock): Alignment {
  const apart = feet.steps
    .phases(shared.lag_s)
    .map(({ phase, stride_s }) => ({ phase, off_s: (phase - 0.5) * stride_s }));
  if (apart.length < 3 || Math.abs(middleValue(apart.map(({ phase }) => phase - 0.5))) < WIDEST_PHASE)
    return fromLag(shared.lag_s, 0, shared);
  const off_s = middleValue(apart.map((one) => one.off_s));
  return {
    ...fromLag(shared.lag_s, 0, { ...shared, u: Math.abs(off_s), confidence: 0.5 }),
    fault: fault('CLOCKS_UNCERTAIN.uneven_steps', { stamps: shared.method, off_s }, { method: shared.method }),
  };
}

/** Stamps that are one clock's at their beginning and drift apart: the steps tell by how much. */
function driftingApart(model: ClockModel, feet: TwoFeet, shared: SharedClock): Alignment {
  const u = lagUncertainty(model, middleOfRunning(feet));
  const { method } = shared;
  const { fault: _none, ...alignment } = fromModel(
    { model, method: 'step alternation', u, worst_u: u, confidence: 0.6, impacts: 2 },
    null,
  );
  const values = { stamps: method, ppm: 1e6 * model.rate, u_s: u };
  return { ...alignment, method, fault: fault('CLOCKS_UNCERTAIN.drifting', values, { method }) };
}

/** Stamps are believed unless the feet fall together, or nearly, wherever both run. */
function stepsAgree(feet: TwoFeet, lag_s: number): boolean {
  return alternates(feet.steps.phases(lag_s)) !== 'no';
}

function fromModel({ model, method, u, confidence, impacts }: ClocksFound, shared: SharedClock | null): Alignment {
  // On the left clock: right time r happened at r + lag, and lag changes by `rate` a second of the left clock.
  const drift = model.rate / (1 - model.rate);
  const lag_s = model.lag_s + (model.rate * (model.lag_s - model.at_s)) / (1 - model.rate);
  const alignment = fromLag(lag_s, drift, { u, method, residual_s: model.residual_s, confidence });
  if (shared)
    return { ...alignment, confidence: Math.min(confidence, 0.7), fault: stampsOverruled(shared, lag_s, method) };
  if (method === 'step alternation' || impacts < 2) return { ...alignment, fault: uncertain(method, u) };
  return alignment;
}

/** Two columns that start at zero and differ in length may still be one clock's, when the steps fit exactly that. */
function fromZero(left: SampleBlock, right: SampleBlock, feet: TwoFeet): Alignment | null {
  if (left.clock_start_s !== 0 || right.clock_start_s !== 0) return null;
  if (Math.abs(lastTime(left) - lastTime(right)) > ZERO_LENGTHS_S) return null;
  const phases = feet.steps.phases(0);
  if (phases.length < 3 || lagScore(phases, phases.length) < ZERO_SCORE) return null;
  const alignment = fromLag(0, 0, { u: 0.005, method: 'common time column', residual_s: 0, confidence: 0.5 });
  return { ...alignment, fault: fault('CLOCKS_UNCERTAIN.common_zero', {}, { method: alignment.method }) };
}

function lastTime({ time_s }: SampleBlock): number {
  return time_s[time_s.length - 1] ?? 0;
}

/** @param lag_s when the right's first sample was, on the left's clock */
function fromLag(
  lag_s: number,
  drift: number,
  { u, method, residual_s, confidence }: Pick<Alignment, 'u' | 'method' | 'residual_s' | 'confidence'>,
): Alignment {
  return {
    left_offset_s: Math.max(-lag_s, 0),
    right_offset_s: Math.max(lag_s, 0),
    drift,
    u,
    method,
    residual_s,
    confidence,
  };
}

const ENOUGH_SAMPLES = 200;

/** Two sensors never agree in every bit of their noise: then one recording was given for both sides. */
function sameSamples({ acc_mps2: a }: SampleBlock, { acc_mps2: b }: SampleBlock): boolean {
  const n = Math.min(a.x.length, b.x.length);
  if (n < ENOUGH_SAMPLES) return false;
  for (let i = 0; i < n; i++) if (a.x[i] !== b.x[i] || a.y[i] !== b.y[i] || a.z[i] !== b.z[i]) return false;
  return true;
}

function refused(): Alignment {
  return {
    ...fromLag(0, 0, { u: Number.POSITIVE_INFINITY, method: 'none', residual_s: 0, confidence: 0 }),
    fault: fault('CLOCKS_NOT_ALIGNED', {}),
  };
}

/** Something tells the lag, but too long before or after the running: by then the clocks may have drifted apart. */
function driftedOff(): Alignment {
  return { ...refused(), fault: fault('CLOCKS_NOT_ALIGNED.drift', {}) };
}

function uncertain(method: AlignmentMethod, u: number): CodedFault {
  const by = method === 'step alternation' ? 'by_steps' : 'by_one_impact';
  return fault(`CLOCKS_UNCERTAIN.${by}`, { u_s: u }, { method });
}

function stampsOverruled(shared: SharedClock, lag_s: number, method: AlignmentMethod): CodedFault {
  const values = { stamps: shared.method, method, apart_s: lag_s - shared.lag_s };
  return fault('CLOCKS_UNCERTAIN.stamps_overruled', values, { method });
}

function stampsDoubted({ method }: SharedClock): CodedFault {
  return fault('CLOCKS_UNCERTAIN.stamps_doubted', { stamps: method }, { method });
}
