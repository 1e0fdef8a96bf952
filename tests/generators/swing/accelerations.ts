/**
 * How hard foot and shank are accelerated in swing and at landing, g: what an accelerometer alone has to tell apart. Magnitude
 * of all three axes, each low-passed at 60 Hz as the markers of the recorded sprint are (zero phase), medians over contacts.
 */
import { generateRepetition } from '../../../seeds/generate-repetition.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../../shared/units.ts';
import { makeMotion, type Plan } from '../second/recording.ts';
import { rigidSignals } from '../second/sensor.ts';
import { zeroPhase } from '../toe-off/features.ts';
import { BARE } from '../toe-off/first-generator.ts';

const RATE_HZ = 1000;
const CUTOFF_HZ = 60;

export interface Peaks {
  /** From 30 to 200 ms after toe-off, and from 100 to 15 ms before touchdown. */
  swing: number;
  late_swing: number;
  /** From 10 ms before touchdown to 50 ms after it. */
  landing: number;
}

interface Contact {
  side: 'left' | 'right';
  touchdown_s: number;
  toe_off_s: number;
}

type Columns = readonly Float64Array[];

function peaksOf(sides: Record<'left' | 'right', Columns>, contacts: Contact[]): Peaks {
  const magnitude = Object.fromEntries(
    Object.entries(sides).map(([side, columns]) => {
      const [x, y, z] = columns.map((column) => zeroPhase(column, CUTOFF_HZ, RATE_HZ));
      return [side, x.map((value, i) => Math.hypot(value, y[i], z[i]) / STANDARD_GRAVITY_MPS2)];
    }),
  );
  const highest = (side: string, from_s: number, to_s: number) =>
    magnitude[side]
      .subarray(Math.round(from_s * RATE_HZ), Math.round(to_s * RATE_HZ))
      .reduce((a, b) => Math.max(a, b), 0);
  const median = (of: (contact: Contact) => number) => {
    const values = contacts.map(of).sort((a, b) => a - b);
    return values[values.length >> 1];
  };
  return {
    swing: median(({ side, toe_off_s }) => highest(side, toe_off_s + 0.03, toe_off_s + 0.2)),
    late_swing: median(({ side, touchdown_s }) => highest(side, touchdown_s - 0.1, touchdown_s - 0.015)),
    landing: median(({ side, touchdown_s }) => highest(side, touchdown_s - 0.01, touchdown_s + 0.05)),
  };
}

/** A sensor on the instep and one on the shin, as the recorded sprint's markers sat. */
export function firstGeneratorPeaks(seed: number, speed_mps: number): Record<'foot' | 'shank', Peaks> {
  const peaks = (mounting: 'foot' | 'shank', lever_m: [number, number, number]) => {
    const made = generateRepetition({
      seed,
      steady: { speed_mps, duration_s: 2.2 },
      mountings: [mounting],
      internal_rate_hz: 2000,
      sensor: { ...BARE, acc_range_g: 1000, lever_m },
    });
    const { left, right } = made.sensors[mounting];
    const inside = made.truth.contacts.filter(({ touchdown_s, toe_off_s }) => touchdown_s > 0.15 && toe_off_s < 1.9);
    const columns = ({ acc_mps2: { x, y, z } }: typeof left) => [x, y, z];
    return peaksOf({ left: columns(left), right: columns(right) }, inside);
  };
  return { foot: peaks('foot', [0.04, 0, -0.02]), shank: peaks('shank', [0.02, 0.03, 0.12]) };
}

export function secondGeneratorPeaks(plan: Plan): Record<'foot' | 'shank', Peaks> {
  const { session, legs } = makeMotion(plan, RATE_HZ);
  const contacts = session.contacts
    .filter(({ phase }) => phase === 'maximum')
    .map(({ side, touchdown, toeOff }) => ({ side, touchdown_s: touchdown, toe_off_s: toeOff }));
  const peaks = (segment: 'foot' | 'shank', offset: [number, number, number]) => {
    const columns = (side: 'left' | 'right') => rigidSignals(legs[side][segment], offset, RATE_HZ).slice(0, 3);
    return peaksOf({ left: columns('left'), right: columns('right') }, contacts);
  };
  return { foot: peaks('foot', [-0.06, 0, 0.07]), shank: peaks('shank', [0.005, 0.045, 0.1]) };
}
