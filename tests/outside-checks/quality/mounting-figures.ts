/** How often the checks of how a sensor was worn are right, on recordings that are worn as stated and on the same ones stated wrongly. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { analyse } from '../../../dsp/analyse.ts';
import {
  type MountingCheck,
  type SensorQuality,
  UNKNOWN_CONDITIONS,
  UNKNOWN_COURSE,
} from '../../../shared/analysis.ts';
import type { SensorRecording } from '../../../shared/sample-block.ts';
import { type CheckFinding, MOUNTING_CHECKS, type MountingCheckName, type Mounting } from '../../../shared/words.ts';
import { turningSensor } from '../../helpers/turning-sensor.ts';
import { readSamples } from '../validation/force-plate-cases.ts';

/** Sensors that belong together, worn as they say. */
export interface WornCase {
  name: string;
  set: string;
  mounting: Mounting;
  sensors: SensorRecording[];
}

const otherSide = { left: 'right', right: 'left', unknown: 'unknown' } as const;
const otherMounting = { foot: 'shank', shank: 'foot' } as const;
type Change = (sensor: SensorRecording) => SensorRecording;
const turned =
  (angle_deg: (share: number) => number): Change =>
  (sensor) => ({ ...sensor, samples: turningSensor(sensor.samples, angle_deg) });

/** What is said or done wrongly, and the check that should tell. */
export const MISTAKES: Record<string, { tells: MountingCheckName | null; change: Change }> = {
  'as worn': { tells: null, change: (sensor) => sensor },
  'other mounting stated': {
    tells: 'segment',
    change: (sensor) => ({ ...sensor, mounting: otherMounting[sensor.mounting] }),
  },
  'sides swapped': { tells: 'side', change: (sensor) => ({ ...sensor, side: otherSide[sensor.side] }) },
  'turned by 30 degrees': { tells: 'turning', change: turned((share) => (share > 0.5 ? 30 : 0)) },
  'crept by 40 degrees': { tells: 'turning', change: turned((share) => 40 * share) },
};

export function qualityOf({ sensors }: WornCase, mistake: string): SensorQuality[] {
  const { change } = MISTAKES[mistake];
  return analyse({ sensors: sensors.map(change), course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS }).quality;
}

export function checkOf(quality: SensorQuality, name: MountingCheckName): MountingCheck {
  return quality.mounting_checks!.find(({ check }) => check === name)!;
}

/** Counts of findings by check, over sensors. */
export type Findings = Record<MountingCheckName, Record<CheckFinding, number>>;

export function countFindings(qualities: SensorQuality[]): Findings {
  const none = (): Record<CheckFinding, number> => ({ 'as expected': 0, 'cannot be told': 0, doubtful: 0 });
  const counts = Object.fromEntries(MOUNTING_CHECKS.map((check) => [check, none()])) as Findings;
  for (const { mounting_checks } of qualities) {
    for (const { check, finding } of mounting_checks!) counts[check][finding]++;
  }
  return counts;
}

/**
 * Jogs and walks with a real sensor on the right shoe, on curved paths with starts and stops (Wagstaff et al. 2021, doi
 * 10.21227/v1z6-9z84).
 */
export async function* shoeLoopCases(folder: string): AsyncGenerator<WornCase> {
  const loops = join(folder, 'shoe-jog-loops');
  for (const file of readdirSync(loops).filter((name) => name.endsWith('.gz'))) {
    const samples = await readSamples(join(loops, file));
    const clock = { clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0 };
    yield {
      name: file.slice(0, 24),
      set: 'real shoe sensor',
      mounting: 'foot',
      sensors: [{ side: 'right', mounting: 'foot', samples, ...clock }],
    };
  }
}

/** Accelerometers without gyroscope above the ankle (LMU HAR Lab 2023) and on a shoe (adeptdata 1.1). */
export async function* accelerometerCases(folder: string): AsyncGenerator<WornCase> {
  const clock = { clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0 };
  const ankles = join(folder, 'ankle-treadmill-jog');
  for (const file of readdirSync(ankles).filter((name) => name.endsWith('.gz'))) {
    const samples = await readSamples(join(ankles, file));
    const sensors = [{ side: 'left' as const, mounting: 'shank' as const, samples, ...clock }];
    yield { name: file, set: 'real accelerometers', mounting: 'shank', sensors };
  }
  const samples = await readSamples(join(folder, 'shoe-outdoor-run', 'shoe_left.csv.gz'));
  const sensors = [{ side: 'left' as const, mounting: 'foot' as const, samples, ...clock }];
  yield { name: 'shoe outdoors', set: 'real accelerometers', mounting: 'foot', sensors };
}
