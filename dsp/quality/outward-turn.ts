import { MOUNTING_JUDGES } from './mountings.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';
import type { SensorSignals } from '../signals/sensor-signals.ts';
import {
  at,
  cross,
  dot,
  integrateRotation,
  timeMean,
  turn,
  turnColumns,
  added,
  unit,
  type Vector3,
  without,
} from '../numeric/rotation.ts';
import type { SidedContact } from '../repetitions/contact-row.ts';
import type { AnalysisSettings } from '../settings/settings.ts';
import { sampleAt } from '../signals/sensor-time.ts';
import type { StrideFigure } from './worn-segment.ts';

/** How a leg turned outward in its contacts, each number in what is usual for the side that the sensor is said to be on. */
export interface OutwardTurn {
  /** What tells the side: near 1 where it is as stated, near -1 on the other leg. */
  push: StrideFigure;
  /** A second sign that must not contradict the first one. */
  second: number;
}

/**
 * What differs in sign between a left and a right leg, seen from behind. A foot rolls inward after it has landed (eversion) and rolls
 * outward as it pushes off over the oblique line of its toe joints; a shank tilts and turns outward towards the end of contact.
 * Up is the mean of the acceleration turned back over the stride; the way is at right angles to it and to the axis of the swing, which
 * points to the right on either leg. So the mounting angle drops out, and a bend that both legs lean into cancels between them.
 * @param contacts this sensor's contacts of running
 * @returns null where the side is not stated, without gyroscope, or with too few whole strides
 */
export function outwardTurn(
  recording: SensorRecording,
  signals: SensorSignals,
  contacts: SidedContact[],
  settings: AnalysisSettings,
): OutwardTurn | null {
  const { side, mounting } = recording;
  const { most_strides, least_strides, longest_stride_s, usual } = settings.mounting.side;
  if (side === 'unknown' || !signals.gyr_radps || !signals.axis) return null;
  const strides = contacts
    .slice(0, -1)
    .map((contact, k) => ({ contact, next_s: contacts[k + 1].touchdown_s }))
    .filter(({ contact, next_s }) => contact.toe_off_s !== null && next_s - contact.touchdown_s < longest_stride_s);
  const every = Math.max(1, Math.ceil(strides.length / most_strides));
  const outward = side === 'right' ? 1 : -1;
  const turns = strides
    .filter((_, k) => k % every === 0)
    .map(({ contact, next_s }) => turnsOf(recording, signals, contact, next_s, settings))
    .filter((turns) => turns !== null);
  if (turns.length < least_strides) return null;
  const judge = MOUNTING_JUDGES[mounting];
  const [a, b] = judge.usual(usual);
  const first = turns.map((t) => (outward * t[0]) / a);
  const second = turns.map((t) => (outward * t[1]) / b);
  return judge.outward(first, second);
}

/**
 * Mean rates over parts of one contact, as shares of the peak swing rate, positive for a right leg's usual way: a foot's roll
 * outward in the push and inward after landing, a shank's tilt and turn outward before toe-off.
 */
function turnsOf(
  recording: SensorRecording,
  signals: SensorSignals,
  contact: SidedContact,
  next_s: number,
  settings: AnalysisSettings,
): [number, number] | null {
  const { rate_hz, length, measured } = signals;
  const gyr = signals.gyr_radps!;
  const axis = signals.axis!;
  const from = Math.round(sampleAt(contact.touchdown_s, { recording, signals }));
  const to = Math.round(sampleAt(next_s, { recording, signals }));
  const off = Math.round(sampleAt(contact.toe_off_s!, { recording, signals }));
  const swing = contact.swing_after_radps ?? contact.swing_before_radps;
  if (from < 0 || to >= length || off - from < 4 || !swing) return null;
  for (let i = from; i <= to; i++) {
    if (!measured[i] || !Number.isFinite(gyr.x[i] + gyr.y[i] + gyr.z[i])) return null;
  }
  const turned = integrateRotation(gyr, rate_hz, from, to);
  const up = unit(timeMean(turnColumns(turned, signals.acc_mps2)));
  let axes: Vector3 = [0, 0, 0];
  for (let i = from; i <= to; i += 4) axes = added(axes, turn(turned, i, axis));
  const right = unit(without(axes, up));
  const forward = cross(up, right);
  const rates = (about: Vector3, [start, end]: number[]): number => {
    const [a, b] = [start, end].map((share) => Math.round(from + share * (off - from)));
    let sum = 0;
    for (let i = a; i <= b; i++) sum += dot(turn(turned, i, at(gyr, i)), about);
    return sum / (b - a + 1) / swing;
  };
  const values = MOUNTING_JUDGES[recording.mounting].turns(rates, { up, forward }, settings.mounting.side);
  return values.every(Number.isFinite) ? values : null;
}
