import { type GeneratedRecording, generateRepetition } from '../../seeds/generate-repetition.ts';
import { sensorCsv } from './sensor-csv.ts';

export interface SprintFiles {
  left: string;
  right: string;
  recording: GeneratedRecording;
}

const made = new Map<number, SprintFiles>();

/** Two foot sensors' files of an invented 30 m sprint with standing, running and walking, at 500 Hz. */
export function sprintFiles(seed = 7): SprintFiles {
  const present = made.get(seed);
  if (present) return present;
  const recording = generateRepetition({
    seed,
    mountings: ['foot'],
    repetitions: [{ effort: 1, distance_m: 30 }],
    stand_before_s: 2,
    walk_steps: 2,
    stand_after_s: 1,
    sensor: { rate_hz: 500 },
    internal_rate_hz: 2000,
  });
  const { left, right } = recording.sensors.foot;
  const files = { left: sensorCsv(left), right: sensorCsv(right), recording };
  made.set(seed, files);
  return files;
}
