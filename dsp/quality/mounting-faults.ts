import { MOUNTING_PLACES } from '../../shared/mountings.ts';
import type { FaultCode } from '../../shared/fault-codes.ts';
import type { MountingCheck } from '../../shared/analysis.ts';
import type { Fault } from '../../shared/fault.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';

/** Why a contact of a sensor that seems to have been worn elsewhere has no toe-off. */
export function wornElsewhere({ mounting }: SensorRecording): string {
  return `the sensor moves as one on the ${MOUNTING_PLACES[mounting].mistaken_for}: choose that mounting and analyse again`;
}

/** What is told of every doubtful check: what was seen, what it means, what to do. */
export function mountingFaults({ side, mounting }: SensorRecording, checks: MountingCheck[]): Fault[] {
  const other = MOUNTING_PLACES[mounting].mistaken_for;
  const words: Record<MountingCheck['check'], { code: FaultCode; means: string; hint: string }> = {
    segment: {
      code: 'MOUNTING_DOUBTFUL',
      means: `so it seems to have been worn on the ${other}. It was analysed as a ${mounting} sensor: contacts are missed, and contact times, which would be wrong by tens of milliseconds, are left out`,
      hint: `Choose the mounting '${other}' for this file and analyse again.`,
    },
    side: {
      code: 'SIDES_DOUBTFUL',
      means: 'so left and right seem swapped. They were analysed as stated: every contact counts for the other leg',
      hint: 'Swap the two files, or the labels of the sensors, and analyse again.',
    },
    ringing: {
      code: 'SENSOR_LOOSE',
      means: 'so it sits loose. Contacts were analysed as they are: touchdown and toe-off are blurred',
      hint: 'Tighten the strap or the lace over the sensor, and press it against the bone or the shoe.',
    },
    turning: {
      code: 'SENSOR_TURNED',
      means: 'so it slipped on the leg. It was analysed as it is',
      hint: 'Fasten it so that it cannot turn, and put it back where it was before the next repetition.',
    },
  };
  return checks
    .filter(({ finding }) => finding === 'doubtful')
    .map(({ check, value, limit, why }) => ({
      code: words[check].code,
      message: `${side} ${mounting} sensor: ${why}; ${words[check].means}.`,
      where: { side, mounting, value, limit },
      hint: words[check].hint,
    }));
}
