/**
 * A second, cruder maker of running signals, of another kind on purpose: events painted onto curves, no mechanics. Rotation is
 * a sum of lobes (swing, landing, push, fold), translation a bump per swing, impact a decaying oscillation at touchdown.
 * What a detector owes to one maker's habits fails on the other. Its lobes have no true distance from the events, so it
 * is good for finding contacts and for scatter, not for bias.
 */
import type { SampleBlock } from '../shared/sample-block.ts';
import type { Mounting } from '../shared/words.ts';
import { makeRandom, type Random } from './random.ts';
import { randomRotation, readSensor, type SegmentMotion, type SensorModel } from './sensor/sensor-model.ts';
import { drawSensor } from './sensor/draw-sensor.ts';

export interface PaintedContact {
  side: 'left' | 'right';
  touchdown_s: number;
  toe_off_s: number;
}

export interface PaintedRunning {
  sensors: { left: SampleBlock; right: SampleBlock };
  contacts: PaintedContact[];
}

export interface PaintOptions {
  seed: number;
  mounting: Mounting;
  speed_mps: number;
  contact_s: number;
  step_s: number;
  /** Number of steps; standing before and after. */
  steps: number;
  sensor?: Partial<SensorModel>;
}

const RATE_HZ = 2000;
const STAND_S = 2;

const bell = (t: number, centre: number, width: number): number => Math.exp(-0.5 * ((t - centre) / width) ** 2);

export function paintRunning(options: PaintOptions): PaintedRunning {
  const random = makeRandom(options.seed);
  const { contact_s, step_s, steps } = options;
  const contacts: PaintedContact[] = [];
  let at = STAND_S + 0.3;
  for (let i = 0; i < steps; i++) {
    const touchdown_s = at;
    contacts.push({
      side: i % 2 === 0 ? 'left' : 'right',
      touchdown_s,
      toe_off_s: touchdown_s + contact_s * random.within(1, 0.025),
    });
    at += step_s * random.within(1, 0.015);
  }
  const end_s = at + STAND_S;
  const style = drawStyle(random, options.mounting);
  const sensors = {} as PaintedRunning['sensors'];
  for (const side of ['left', 'right'] as const) {
    const chance = random.fork(side);
    const own = contacts.filter((contact) => contact.side === side);
    const motion = paintSegment(own, options.speed_mps, end_s, style, chance);
    const model = drawSensor(options.mounting, chance, {
      lever_m: [0, 0, 0],
      mounting: randomRotation(chance),
      ...options.sensor,
    });
    sensors[side] = readSensor(motion, model, end_s - 0.05, chance);
  }
  return { sensors, contacts };
}

interface Style {
  push: { size: number; lead_s: number; width_s: number };
  landing: { size: number; lag_s: number; width_s: number };
  fold: number;
  impact: { size_mps2: number; frequency_hz: number; decay_s: number };
}

function drawStyle(random: Random, mounting: Mounting): Style {
  const foot = mounting === 'foot';
  return {
    push: foot
      ? { size: random.uniform(12, 20), lead_s: random.uniform(-0.004, 0.012), width_s: random.uniform(0.018, 0.03) }
      : { size: random.uniform(2, 4), lead_s: 0.06, width_s: 0.03 },
    landing: { size: random.uniform(4, 10), lag_s: random.uniform(0, 0.01), width_s: random.uniform(0.006, 0.015) },
    fold: random.uniform(8, 16),
    impact: {
      size_mps2: random.uniform(120, 500),
      frequency_hz: random.uniform(25, 70),
      decay_s: random.uniform(0.008, 0.02),
    },
  };
}

function paintSegment(
  contacts: PaintedContact[],
  speed_mps: number,
  end_s: number,
  style: Style,
  random: Random,
): SegmentMotion {
  const n = Math.floor(end_s * RATE_HZ);
  const column = () => new Float64Array(n);
  const rate = column();
  const motion: SegmentMotion = {
    start_s: 0,
    rate_hz: RATE_HZ,
    x: column(),
    y: column(),
    z: column(),
    roll: column(),
    pitch: column(),
    yaw: column(),
  };
  const forward = column();
  const upward = column();
  contacts.forEach((contact, k) => {
    const { touchdown_s: a, toe_off_s: b } = contact;
    const swing_s = (contacts[k + 1]?.touchdown_s ?? a + (k > 0 ? a - contacts[k - 1].touchdown_s : 0.5)) - b;
    const vary = () => random.within(1, 0.05);
    const push = style.push.size * vary();
    const fold = style.fold * vary();
    const landing = style.landing.size * vary();
    const impact = style.impact.size_mps2 * vary();
    // Backward lobes turn the segment by some angle; the forward swing turns it back exactly.
    let backward = 0;
    const from = Math.max(0, Math.floor((a - 0.08) * RATE_HZ));
    const to = Math.min(n, Math.ceil((b + swing_s) * RATE_HZ));
    for (let i = from; i < to; i++) {
      const t = i / RATE_HZ;
      const lobes =
        push * bell(t, b - style.push.lead_s, style.push.width_s) +
        landing * bell(t, a + style.landing.lag_s, style.landing.width_s) +
        fold * bell(t, b + 0.28 * swing_s, 0.12 * swing_s);
      rate[i] += lobes;
      backward += lobes / RATE_HZ;
      if (t > a) {
        const u = t - a;
        const wave = Math.sin(2 * Math.PI * style.impact.frequency_hz * u) * Math.exp(-u / style.impact.decay_s);
        upward[i] += impact * wave * Math.min(1, u / 0.002);
        forward[i] -= 0.3 * impact * wave * Math.min(1, u / 0.002);
      }
      if (t > b && t < b + swing_s) {
        // Speed of the foot: a bump whose mean is the way of one stride over the swing.
        const phase = (t - b) / swing_s;
        const stride = speed_mps * (swing_s + b - a);
        forward[i] += (stride / swing_s ** 2) * 2 * Math.PI * Math.sin(2 * Math.PI * phase);
        upward[i] += 0.25 * ((2 * Math.PI) / swing_s) ** 2 * 0.5 * Math.cos(2 * Math.PI * phase);
      }
    }
    const width = 0.17 * swing_s;
    const size = backward / (width * Math.sqrt(2 * Math.PI));
    for (let i = Math.floor(b * RATE_HZ); i < Math.min(n, Math.ceil((b + 1.3 * swing_s) * RATE_HZ)); i++) {
      rate[i] -= size * bell(i / RATE_HZ, b + 0.64 * swing_s, width);
    }
  });
  integrate(rate, motion.pitch);
  integrate(integrate(forward, column()), motion.x);
  integrate(settle(integrate(upward, column()), contacts), motion.z);
  for (let i = 0; i < n; i++) {
    const t = i / RATE_HZ;
    motion.roll[i] = 0.06 * Math.sin(2 * Math.PI * 1.9 * t);
    motion.yaw[i] = 0.05 * Math.sin(2 * Math.PI * 1.9 * t + 1);
  }
  return motion;
}

function integrate(from: Float64Array, into: Float64Array): Float64Array {
  for (let i = 1; i < from.length; i++) into[i] = into[i - 1] + (from[i] + from[i - 1]) / (2 * RATE_HZ);
  return into;
}

/** What an impact leaves of vertical speed dies away within the contact. */
function settle(speed: Float64Array, contacts: PaintedContact[]): Float64Array {
  const out = speed.slice();
  let offset = 0;
  let k = 0;
  for (let i = 1; i < speed.length; i++) {
    const t = i / RATE_HZ;
    while (k < contacts.length - 1 && t > contacts[k].toe_off_s) k++;
    if (t > contacts[k].touchdown_s && t < contacts[k].toe_off_s) offset += (speed[i] - offset) / (0.03 * RATE_HZ);
    out[i] = speed[i] - offset;
  }
  return out;
}
