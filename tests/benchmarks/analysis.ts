/**
 * The analysis of one recording (two foot sensors with gyroscope, 30 s at 1000 Hz, uneven stamps) beside the same work done with SciPy
 * (analysis-scipy.py), in turn in the same run; where the time goes, stage by stage; memory: `npm run bench:analysis [-- REPEATS]`.
 * Exit code 1 where more than 0.7 of SciPy's time is taken, or more than 150 ms or 200 MB.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { analyse } from '../../dsp/analyse.ts';
import { generateRepetition } from '../../seeds/generate-repetition.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../shared/analysis.ts';
import type { SampleBlock, SensorRecording } from '../../shared/sample-block.ts';
import { uniform } from '../helpers/random.ts';
import { compare, RATIO_HEAD, ratioLine, timeOurs } from './compare.ts';
import { Rival } from './rival.ts';
import { stageShares } from './stage-shares.ts';

const LIMIT_MS = 150;
const LIMIT_MB = 200;
const WANTED = 1 / 0.7;
const SECONDS = 30;
const RATE_HZ = 1000;
/**
 * Stamps are off their grid by up to half of this part of an interval, so that both must put samples on it; by more, the analysis would ask
 * of the signal which of the two is uneven, which the script in SciPy does not.
 */
const JITTER = 0.05;
const REPEATS = Number(process.argv[2] ?? 9);

const STAGES: Record<string, string> = {
  sensorSignals: 'grid, axis and sign',
  motionLevel: 'stillness',
  swingCycles: 'strides',
  strideFrame: 'strides',
  gyroscopeContacts: 'features of contacts',
  secondStage: 'learned',
  findRepetitions: 'repetitions',
  fillStrides: 'lengths, speed and fits',
  segmentCheck: 'checks of the sensor',
  axisFaults: 'checks of the sensor',
  legsAlternate: 'checks of the sensor',
  recordingQuality: 'quality and spectra',
  otherActivity: 'other activity',
  '(garbage collector)': 'collecting memory',
};

const made = generateRepetition({
  seed: 7,
  mountings: ['foot'],
  sensor: { rate_hz: RATE_HZ },
  repetitions: [
    { effort: 1, distance_m: 40 },
    { effort: 0.7, distance_m: 40 },
  ],
});
const sensors = (['left', 'right'] as const).map(
  (side): SensorRecording => ({
    side,
    mounting: 'foot',
    samples: uneven(first(made.sensors.foot[side])),
    clock_offset_s: 0,
    clock_drift: 0,
    clock_offset_u_s: 0,
  }),
);
const ours = () => analyse({ sensors, course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS });

const folder = mkdtempSync(join(tmpdir(), 'bench-analysis-'));
const file = join(folder, 'samples.f64');
writeFileSync(file, Buffer.concat(sensors.flatMap(({ samples }) => columnsOf(samples)).map(bytesOf)));
const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const script = readFileSync(here('./analysis-scipy.py'), 'utf8');
const model = here('../../dsp/learned/models/foot-gyroscope.json');
const rival = await Rival.start(script, [file, model, String(RATE_HZ)]);
try {
  const { cpu_s } = await timeOurs(ours);
  const contacts = ours().repetitions.reduce((sum, { contacts }) => sum + contacts.length, 0);
  const theirs = (await rival.time('analysis')).answer as { contacts: number };
  console.log(
    `2 sensors x 6 channels, ${SECONDS} s at ${RATE_HZ} Hz: ${contacts} contacts (SciPy cuts ${theirs.contacts} strides)`,
  );
  console.log(`the first analysis of the process: ${(1000 * cpu_s).toFixed(0)} ms of processors\n${RATIO_HEAD}`);
  for (let k = 0; k < 10; k++) ours();
  const ratio = await compare(
    () => timeOurs(ours),
    () => rival.time('analysis'),
    REPEATS,
  );
  console.log(ratioLine('the whole analysis', ratio, WANTED));
  console.log(
    `share of SciPy's time: ${(1 / ratio.by_clock.median).toFixed(2)} by the clock, ${(1 / ratio.by_processor.median).toFixed(2)} by processor (at most 0.7)`,
  );
  await showStages();
  const memory = process.memoryUsage().rss / 1e6;
  console.log(
    `\nmedian ${ratio.ours_ms.toFixed(0)} ms (target ${LIMIT_MS}), memory ${memory.toFixed(0)} MB (target ${LIMIT_MB})`,
  );
  if (ratio.by_clock.median < WANTED || ratio.ours_ms > LIMIT_MS || memory > LIMIT_MB) process.exitCode = 1;
} finally {
  await rival.close();
  rmSync(folder, { recursive: true });
}

async function showStages(): Promise<void> {
  const { stages } = (await rival.time('analysis')).answer as { stages: Record<string, number> };
  const total = Object.values(stages).reduce((sum, seconds) => sum + seconds, 0);
  const theirs = Object.entries(stages).map(([stage, seconds]): [string, number] => [stage, seconds / total]);
  const own = await stageShares(STAGES, () => {
    for (let k = 0; k < 10; k++) ours();
  });
  const percent = ([stage, share]: [string, number]) => `  ${(100 * share).toFixed(0).padStart(3)} %  ${stage}`;
  console.log(
    `\nours\n${own.map(percent).join('\n')}\nSciPy\n${theirs
      .sort((a, b) => b[1] - a[1])
      .map(percent)
      .join('\n')}`,
  );
}

function first(block: SampleBlock): SampleBlock {
  const n = Math.min(block.time_s.length, SECONDS * RATE_HZ);
  const cut = ({ x, y, z }: SampleBlock['acc_mps2']) => ({ x: x.slice(0, n), y: y.slice(0, n), z: z.slice(0, n) });
  return {
    ...block,
    time_s: block.time_s.slice(0, n),
    acc_mps2: cut(block.acc_mps2),
    gyr_radps: block.gyr_radps && cut(block.gyr_radps),
  };
}

function uneven(block: SampleBlock): SampleBlock {
  const random = uniform(5);
  const time_s = block.time_s.map((time, i) => (i === 0 ? time : time + (JITTER * (random() - 0.5)) / RATE_HZ));
  return { ...block, time_s };
}

function columnsOf({ time_s, acc_mps2: a, gyr_radps: g }: SampleBlock): Float64Array[] {
  return [time_s, a.x, a.y, a.z, g!.x, g!.y, g!.z];
}

function bytesOf(column: Float64Array): Uint8Array {
  return new Uint8Array(column.buffer, column.byteOffset, column.byteLength);
}
