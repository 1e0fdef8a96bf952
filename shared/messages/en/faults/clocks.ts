import type { CodedFault, Fault } from '../../../fault-shape.ts';
import type { FaultRoom } from '../../sentence.ts';

/** Two sensors on one clock. */
export const clockFaults = {
  SAME_RECORDING_TWICE: {
    message: 'The left and the right recording hold the same samples; they were not paired.',
    hint: 'Choose the file of the other foot.',
  },
  CLOCKS_NOT_ALIGNED: {
    message:
      'The two recordings run on clocks that have nothing in common, and neither impacts nor steps tell one lag; they were not paired.',
    hint: 'Start both sensors on one clock, or stamp or jump with both feet together three times before the start.',
  },
  'CLOCKS_NOT_ALIGNED.not_analysed': {
    message: ({ because }: { because: Fault }, say) => `${say.tell(because).message} Nothing was analysed.`,
    hint: ({ because }: { because: Fault }, say) => `${say.tell(because).hint} Each side can still be analysed alone.`,
  },
  'CLOCKS_NOT_ALIGNED.restarted': {
    message: ({ side }: { side: string }) =>
      `The clock of the ${side} sensor started again within a long recording; the two sides cannot be paired. Nothing was analysed.`,
    hint: 'Cut the recording where the sensor started again. Each side can still be analysed alone.',
  },
  'CLOCKS_NOT_ALIGNED.drift': {
    message:
      'The clocks of the two recordings drift apart, and too little near the running tells by how much: steps of left and right could be paired a whole stride off. They were not paired.',
    hint: 'Stamp or jump with both feet together three times shortly before the run and again after it, or cut the recording to the run.',
  },
  'CLOCKS_UNCERTAIN.time_zone': {
    message: ({ hours, doubt }: { hours: number; doubt: CodedFault | null }, say) =>
      `The stamps of the two recordings are ${say.number(hours)} ${say.plural(hours, { one: 'hour', other: 'hours' })} apart and else fit, steps included: one of them is taken for another time zone or summer time.${doubt ? ` ${say.tell(doubt).message}` : ''}`,
    hint: 'Set both sensors to the same time zone, best UTC; the day and hour of the recording may be wrong by that much.',
  },
  'CLOCKS_UNCERTAIN.stamps_refined': {
    message: ({ method, moved_s, u_s }: { method: string; moved_s: number; u_s: number }, say) =>
      `The absolute stamps of the two recordings do not fit each other to the millisecond; ${method} moved the right by ${say.number(moved_s, 3)} s, standard uncertainty ${say.number(1000 * u_s, 1)} ms.`,
    hint: 'Set both sensors by one clock just before recording, or stamp both feet together before the start.',
  },
  'CLOCKS_UNCERTAIN.common_zero': {
    message:
      'Both time columns start at zero but end apart; the steps fit one common clock, so the two were paired on it.',
    hint: 'If each sensor zeroed its own clock, stamp both feet together before the start.',
  },
  'CLOCKS_UNCERTAIN.by_steps': {
    message: ({ u_s }: { u_s: number }, say) =>
      `The two recordings were paired by the alternation of the steps, as if left and right were alike; standard uncertainty ${say.number(1000 * u_s, 1)} ms.`,
    hint: 'Stamp or jump with both feet together three times before the start.',
  },
  'CLOCKS_UNCERTAIN.by_one_impact': {
    message: ({ u_s }: { u_s: number }, say) =>
      `The two recordings were paired by one impact only; standard uncertainty ${say.number(1000 * u_s, 1)} ms.`,
    hint: 'Stamp or jump with both feet together three times before the start.',
  },
  'CLOCKS_UNCERTAIN.stamps_overruled': {
    message: ({ stamps, method, apart_s }: { stamps: string; method: string; apart_s: number }, say) =>
      `The stamps of the two recordings (${stamps}) would let both feet step together; ${method} puts them ${say.number(apart_s, 3)} s apart, which was used.`,
    hint: 'Check that both sensors really share a clock.',
  },
  'CLOCKS_UNCERTAIN.stamps_doubted': {
    message: ({ stamps }: { stamps: string }) =>
      `On the stamps of the two recordings (${stamps}) both feet step together, which running does not; nothing else tells the lag, so the stamps were kept.`,
    hint: 'Check that both sensors really share a clock; do not rely on flight and step times.',
  },
  'CLOCKS_UNCERTAIN.uneven_steps': {
    message: ({ stamps, off_s }: { stamps: string; off_s: number }, say) =>
      `On the stamps of the two recordings (${stamps}) the right steps fall ${say.number(1000 * off_s, 0)} ms off the middle of the left ones: either the legs differ by that much, or the two clocks do. Flight and step times are uncertain by it.`,
    hint: 'Check that both sensors share a clock; stamp both feet together before the start to tell clocks from legs.',
  },
  'CLOCKS_UNCERTAIN.drifting': {
    message: ({ stamps, ppm, u_s }: { stamps: string; ppm: number; u_s: number }, say) =>
      `The stamps of the two recordings (${stamps}) drift apart by ${say.number(Math.abs(0.06 * ppm), 1)} ms a minute, as the steps show; that was taken out, standard uncertainty ${say.number(1000 * u_s, 1)} ms.`,
    hint: 'Set both sensors by one clock just before recording, or record shorter.',
  },
  'CLOCKS_UNCERTAIN.uneven': {
    message: ({ wander_s }: { wander_s: number }, say) =>
      `The two sensors' clocks do not run evenly against each other: ${say.number(1000 * wander_s, 0)} ms off a straight line over the recording; flight and step times are uncertain by that much.`,
    hint: 'Start both sensors on one clock, or cut long recordings into sessions.',
  },
  'CLOCKS_UNCERTAIN.last_compared': {
    message: ({ reached_s, end_s }: { reached_s: number; end_s: number }, say) =>
      `The two sensors' clocks were last compared at ${say.number(reached_s, 0)} s of ${say.number(end_s, 0)} s, for want of running after it; flight and step times of later steps are less certain.`,
    hint: 'Start both sensors on one clock, or cut long recordings into sessions.',
  },
} as const satisfies FaultRoom;
