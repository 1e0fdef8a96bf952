/** Features about toe-off of the second generator's runners (second/). */
import { makeMotion, type Plan } from '../second/recording.ts';
import { type ToeOffFeatures, toeOffFeatures, zeroPhase } from './features.ts';

const RATE_HZ = 1000;

/** One entry a running contact, in time order, with the runner's speed. */
export function secondGeneratorFeatures(
  plan: Plan,
  cutoff_hz: number,
): (ToeOffFeatures & { speed: number; index: number; phase: string })[] {
  const { session, legs } = makeMotion(plan, RATE_HZ);
  const turning = (pitch: Float64Array) => {
    const radps = pitch.map((_, i) => {
      const j = Math.min(pitch.length - 2, Math.max(1, i));
      return ((pitch[j + 1] - pitch[j - 1]) * RATE_HZ) / 2;
    });
    return { start_s: 0, rate_hz: RATE_HZ, radps: zeroPhase(radps, cutoff_hz, RATE_HZ) };
  };
  const sides = { left: null, right: null } as unknown as Record<
    'left' | 'right',
    Record<'foot' | 'shank', ReturnType<typeof turning>>
  >;
  for (const side of ['left', 'right'] as const) {
    sides[side] = { foot: turning(legs[side].foot.pitch), shank: turning(legs[side].shank.pitch) };
  }
  return session.contacts
    .filter(({ phase }) => phase !== 'standing' && phase !== 'walking')
    .map(({ side, touchdown, toeOff, speed, index, phase }) => ({
      ...toeOffFeatures(sides[side].foot, sides[side].shank, touchdown, toeOff),
      speed,
      index,
      phase,
    }));
}
