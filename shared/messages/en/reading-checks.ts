import type { OtherActivity } from '../../analysis.ts';
import type { PhraseRoom } from '../sentence.ts';

type Kind = OtherActivity['kind'];

/** What is looked at to see whether a file was read rightly: what was found, and what is expected or to be looked at. */
export const readingChecks = {
  read_rate: ({ rate_hz, duration_s, lost }: { rate_hz: number; duration_s: number; lost: number }, say) =>
    `${say.number(rate_hz, rate_hz < 100 ? 1 : 0)} samples a second over ${say.number(duration_s, 1)} s${lost > 0 ? `, ${lost} lost` : ''}`,
  read_rate_good: 'enough for contact times',
  read_rate_usable:
    'contact times will be less certain than from 200 a second; right if the sensor is set so, else look at the unit of time',
  read_rate_low: 'too few for contact times; if the sensor records faster, look at the unit of time',
  read_never_still: 'never still in this part',
  read_would_rest: 'a second of standing would show 1.00 g here',
  read_rest: ({ g }: { g: number }, say) => `${say.number(g, 2)} g`,
  read_gravity: 'gravity: the scale is right',
  read_no_gravity: 'a still sensor reads 1.00 g: look at unit and columns of acceleration',
  read_shake: ({ g }: { g: number }, say) => `${say.number(g, 1)} g`,
  read_shake_plausible: 'running shakes a shoe or shank by some 5 to 30 g',
  read_shake_doubtful: 'hardly any motion: right for a rest, else look at the unit of acceleration',
  read_shake_impossible: 'no worn sensor reaches this: look at the unit of acceleration',
  read_no_rotation: 'none',
  read_without_rotation: 'contact times without rotation are less certain; fit columns where there are some',
  read_turn: ({ dps }: { dps: number }, say) => `${say.number(dps, 0)} deg/s`,
  read_turn_plausible: 'a swinging leg turns at some 300 to 2000 deg/s',
  read_turn_doubtful: 'too slow for a leg that runs: right for a rest, else look at the unit of rotation',
  read_turn_impossible: 'beyond every sensor: look at the unit of rotation',
  read_turned_round: ({ axes }: { axes: readonly string[] }) => `rotation about ${axes.join(', ')} seems turned round`,
  read_turn_its_sign: 'acceleration and rotation fit each other only with it turned: turn its sign',
  read_no_running: ({ seen }: { seen: readonly Kind[] }) =>
    `none found${seen.length > 0 ? ` (${seen.join(', ')})` : ''}`,
  read_look_above: 'where there was running, something above is read wrongly',
  read_contacts: ({ contacts, middle_ms }: { contacts: number; middle_ms: number | null }, say) =>
    `${contacts} contacts of this foot${middle_ms === null ? '' : `, half of them below ${say.number(middle_ms, 0)} ms`}`,
  read_usual_contacts: 'sprinters stay down 80 to 130 ms, joggers 200 to 300 ms',
} as const satisfies PhraseRoom;
