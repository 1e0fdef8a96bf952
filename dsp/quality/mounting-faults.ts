import { because, type Reason } from '../../shared/reason.ts';
import type { MountingCheck } from '../../shared/analysis.ts';
import { type Fault, fault } from '../../shared/fault.ts';
import type { SensorRecording } from '../../shared/sample-block.ts';

/** Why a contact of a sensor that seems to have been worn elsewhere has no toe-off. */
export function wornElsewhere({ mounting }: SensorRecording): Reason {
  return because('worn_elsewhere', { mounting });
}

const SENTENCES = {
  segment: 'MOUNTING_DOUBTFUL',
  side: 'SIDES_DOUBTFUL',
  ringing: 'SENSOR_LOOSE',
  turning: 'SENSOR_TURNED',
} as const;

/** What is told of every doubtful check: what was seen, what it means, what to do. */
export function mountingFaults({ side, mounting }: SensorRecording, checks: MountingCheck[]): Fault[] {
  return checks
    .filter(({ finding }) => finding === 'doubtful')
    .map(({ check, value, limit, why }) =>
      fault(SENTENCES[check], { side, mounting, why }, { side, mounting, value, limit }),
    );
}
