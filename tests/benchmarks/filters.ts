/**
 * Zero-phase filters and spectra against SciPy on the same 2 million samples in the same run: `npm run bench:filters`. A ratio
 * above 1 says that ours is faster; 1.3 is wanted.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { designLowPass } from '../../dsp/filters/design.ts';
import { filterChannels } from '../../dsp/filters/filter-forward-backward.ts';
import { powerDensity } from '../../dsp/filters/spectrum.ts';
import { normal } from '../helpers/random.ts';
import { compare, RATIO_HEAD, ratioLine, timeOurs } from './compare.ts';
import { Rival } from './rival.ts';

const SAMPLES = 2_000_000;
const CHANNELS = 6;
const RATE_HZ = 1000;
const CUTOFF_HZ = 20;
const ORDERS = [2, 4, 6, 8];
const SEGMENTS = [256, 500, 2048];
const REPEATS = Number(process.argv[2] ?? 7);
const WANTED = 1.3;

const noise = normal(3);
const channels = Array.from({ length: CHANNELS }, () =>
  Float64Array.from({ length: SAMPLES }, (_, i) => 9.81 + 20 * Math.sin(i / 90) + 3 * noise()),
);
const folder = mkdtempSync(join(tmpdir(), 'bench-filters-'));
const file = join(folder, 'samples.f64');
writeFileSync(file, Buffer.concat(channels.map((x) => new Uint8Array(x.buffer))));

const rival = await Rival.start(
  `
import sys, numpy as np
from scipy import signal
x = np.fromfile(sys.argv[1]).reshape(${CHANNELS}, -1)
def _filter(order, data):
    sos = signal.butter(order, ${CUTOFF_HZ}, fs=${RATE_HZ}, output='sos')
    return lambda: signal.sosfiltfilt(sos, data)
for _order in ${JSON.stringify(ORDERS)}:
    globals()[f'filter_{_order}_1'] = _filter(_order, x[0])
    globals()[f'filter_{_order}_${CHANNELS}'] = _filter(_order, x)
for _n in ${JSON.stringify(SEGMENTS)}:
    globals()[f'density_{_n}'] = lambda n=_n: signal.welch(x[0], ${RATE_HZ}, 'hann', n, n // 2, 1 << (n - 1).bit_length())
`,
  [file],
);
try {
  console.log(`${SAMPLES} samples a channel, ${REPEATS} pairs each\n${RATIO_HEAD}`);
  for (const order of ORDERS) {
    const sections = designLowPass(CUTOFF_HZ, RATE_HZ, order);
    for (const count of [1, CHANNELS]) {
      const some = channels.slice(0, count);
      await show(
        `zero-phase, order ${order}, ${count} channel${count > 1 ? 's' : ''}`,
        `filter_${order}_${count}`,
        () => filterChannels(sections, some),
      );
    }
  }
  for (const segment of SEGMENTS) {
    await show(`power density, segments of ${segment}`, `density_${segment}`, () =>
      powerDensity(channels[0], RATE_HZ, { segment }),
    );
  }
} finally {
  await rival.close();
  rmSync(folder, { recursive: true });
}

async function show(name: string, theirs: string, ours: () => unknown): Promise<void> {
  const ratio = await compare(
    () => timeOurs(ours),
    () => rival.time(theirs),
    REPEATS,
  );
  console.log(ratioLine(name, ratio, WANTED));
  if (ratio.by_clock.median < WANTED) process.exitCode = 1;
}
