import type { Athlete } from './athlete.ts';
import type { Curve } from './curves.ts';
import type { Random } from './random.ts';

/**
 * How a running leg leaves the ground. The calf turns the foot faster and faster until its tendon has given back its energy;
 * from that instant (`lead` before toe-off) the ankle swings like a damped spring without load. The shank leans forward ever
 * more slowly until hip and knee flexors fold the knee: a logistic rise of its rate. The foot turns by the sum of both.
 *
 * Set beside the places of these features in five people on force plates (named in ../README.md): about 4 ms before toe-off
 * the fold begins at sprint speed, the foot has fallen to 0.75 to 0.9 of its fastest rate.
 */
export interface PushOff {
  /** From here to `until` both angles below hold; seconds on the recording's clock. */
  from: number;
  until: number;
  /** The heel's rise joins here, a little before the foot turns fastest. */
  joins: number;
  /** Angles of foot (toe-down) and shank (leaning forward), rad. */
  foot: Curve;
  shank: Curve;
}

const STEP = 0.00025;
/** A bend from 0 to slope 1 over about four times `width`. */
const bend = (x: number, width: number): number => (x > 30 * width ? x : width * Math.log1p(Math.exp(x / width)));

/**
 * @param off pitch of the foot and lean of the shank at toe-off, and what the foot turns through from flat to there, rad
 * @param hard 1 at the first contact of a start, falling to 0 within some steps
 */
export function pushOff(
  a: Athlete,
  contact: { touchdown: number; toeOff: number; speed: number },
  off: { foot: number; shank: number; rise: number },
  hard: number,
  r: Random,
): PushOff {
  const { toeOff, speed } = contact;
  const way = a.leaving;
  const duration = toeOff - contact.touchdown;
  // In the first steps of a start the leg is moved as fast as in running at a higher speed.
  const pace = speed + 4 * hard;
  const slow = Math.exp(-(pace - 2.5) / 2);
  const jitter = (sd: number) => r.normal(0, 0.3 * sd);

  // shank
  const middle = 0.003 + 0.015 * slow + 0.01 * hard + (0.0015 + 0.004 * slow) * way.fold + jitter(0.003);
  const width = 0.5 * (0.0078 + 0.011 * slow + 0.003 * hard) * Math.exp(0.18 * way.foldLength);
  const slowest = -0.8 + 0.8 * way.lean + jitter(0.8);
  const folded = Math.max(5.5, 1.85 * pace) * Math.exp(0.07 * way.foldRate);
  const leaning = 2.8 * speed ** 2 * (1 - 0.8 * hard);
  const turns = middle - (2.1 + 0.5 * way.lean ** 2) * width - 0.036 * hard;
  const shankRate = (u: number): number =>
    slowest +
    leaning * bend(turns - u, 0.5 * width) +
    14 * hard * (bend(u - turns, width) - bend(u - middle, width)) +
    (folded - slowest) / (1 + Math.exp(-(u - middle) / width));

  // ankle
  const share = 0.088 + 0.025 * Math.exp(-(((speed - 5.5) / 1.8) ** 2));
  const lead = Math.max(
    0.003,
    Math.min(0.02, share * duration) * Math.exp(0.2 * way.lead + jitter(0.2)) * (1 - 0.6 * hard),
  );
  // An ankle that swings slowly turns the foot on together with the fold: two humps of nearly equal height, in easy running.
  const lazy = way.lazy ? Math.max(0, Math.min(1, (6 - pace) / 1.4)) : 0;
  const quarter = 0.0172 * (9.5 / Math.max(pace, 2.5)) ** 1.25 * Math.exp(0.1 * way.ring) * (1 + 0.75 * lazy);
  const swings = Math.PI / 2 / quarter;
  const fades = (0.33 + 0.05 * way.fade) * swings;
  const peakRate =
    Math.max(3 * speed + 7 * hard, (2.9 * off.rise) / duration) * Math.exp(0.06 * way.push + jitter(0.04));
  const ankleRate = peakRate - shankRate(-lead);
  const footRate = (u: number): number => {
    const x = u + lead;
    const ring = Math.exp(-fades * x) * (Math.cos(swings * x) + (fades / swings) * Math.sin(swings * x));
    return shankRate(u) + ankleRate * ring;
  };

  const first = -Math.max(lead + 0.13 * quarter, 8 * width, 0.012);
  const last = Math.max(0.03, Math.min(2.3 * quarter, 0.1));
  return {
    from: toeOff + first,
    until: toeOff + last,
    joins: toeOff - lead - 0.13 * quarter,
    foot: angleOf(footRate, first, last, off.foot, toeOff),
    shank: angleOf(shankRate, first, last, off.shank, toeOff),
  };
}

/** Integral of a rate over time, with the given angle at toe-off; a cubic between grid points, so that its slope is the rate. */
function angleOf(rate: Curve, first: number, last: number, atToeOff: number, toeOff: number): Curve {
  const n = Math.ceil((last - first) / STEP) + 9;
  const start = first - 4 * STEP;
  const rates = Array.from({ length: n }, (_, i) => rate(start + i * STEP));
  const angles = [0];
  for (let i = 1; i < n; i++) {
    const middle = rate(start + (i - 0.5) * STEP);
    angles.push(angles[i - 1] + (STEP / 6) * (rates[i - 1] + 4 * middle + rates[i]));
  }
  const at = (u: number): number => {
    const x = (u - start) / STEP;
    const i = Math.max(0, Math.min(n - 2, Math.floor(x)));
    const s = x - i;
    const d = angles[i + 1] - angles[i];
    const [v0, v1] = [rates[i] * STEP, rates[i + 1] * STEP];
    return angles[i] + s * (v0 + s * (3 * d - 2 * v0 - v1 + s * (v0 + v1 - 2 * d)));
  };
  const shift = atToeOff - at(0);
  return (t) => at(t - toeOff) + shift;
}
