/**
 * npm run bench:recovery: the start of a server beside a capture of two hours that was cut off: two sensors at 400 Hz, a sprint every four
 * minutes, nothing of it stored yet. Prints the time until the server answers, its peak of memory, how long a trivial request takes
 * meanwhile, and how many of the sprints are stored in the end. Ends with 1 where that is more than asked.
 */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createAthlete } from '../../api/store/athletes.ts';
import { createSession } from '../../api/store/sessions.ts';
import { Store } from '../../api/store/store.ts';
import { shippedDescriptions } from '../../ingest/ble/descriptions/index.ts';
import { defaultSettings } from '../../ingest/ble/packets/decode-packet.ts';
import { encodePackets } from '../../ingest/ble/packets/encode-packets.ts';
import { encodeRecord, type PacketRecord } from '../../shared/packet-record.ts';
import type { SampleBlock } from '../../shared/sample-block.ts';
import { normal } from '../helpers/random.ts';
import { runningPackets } from '../helpers/running-packets.ts';
import { ServerProcess } from '../helpers/server-process.ts';
import { peakMegabytes } from './process-figures.ts';

const HOURS = Number(process.argv[2] ?? 2);
const RATE_HZ = 400;
const EVERY_S = 240;
const SIDES = ['left', 'right'] as const;
const folder = mkdtempSync(join(tmpdir(), 'cinderlane-long-capture-'));
const [description] = shippedDescriptions();
const settings = { ...defaultSettings(description), rate_hz: RATE_HZ };
const n = HOURS * 3600 * RATE_HZ;
const sprints = Math.floor((HOURS * 3600) / EVERY_S);
const sprint = runningPackets(description, settings, { seed: 5, stand_before_s: 4, stand_after_s: 4 }).blocks;

/** Two hours of standing, with the same sprint again and again. */
function longBlock(run: SampleBlock): SampleBlock {
  const noise = normal(3);
  const column = (of: Float64Array, scale: number) => {
    const out = new Float64Array(n);
    for (let i = 0; i < n; i++) out[i] = of[i % RATE_HZ] + scale * noise();
    for (let k = 0; k < sprints; k++) out.set(of, (k * EVERY_S + 60) * RATE_HZ);
    return out;
  };
  const axes = (of: { x: Float64Array; y: Float64Array; z: Float64Array }, scale: number) => ({
    x: column(of.x, scale),
    y: column(of.y, scale),
    z: column(of.z, scale),
  });
  return {
    ...run,
    time_s: Float64Array.from({ length: n }, (_, i) => i / RATE_HZ),
    acc_mps2: axes(run.acc_mps2, 0.02),
    gyr_radps: run.gyr_radps ? axes(run.gyr_radps, 0.002) : null,
    gaps: [],
  };
}

const store = Store.open(join(folder, 'cinderlane.sqlite'));
const { athlete_id } = createAthlete(store, { name: 'Ann' });
const { session_id } = createSession(store, { session_date: '2026-03-02' });
store.close();
const capture = join(folder, 'captures', 'long');
mkdirSync(capture, { recursive: true });
const started_ms = Date.now() - 24 * 3_600_000;
const sensors = SIDES.map((side) => {
  const sensor_id = `S:${side}`;
  const place = { name: side, description_id: description.id, settings, side, mounting: 'foot' as const, athlete_id };
  const header = {
    format: 'packet-log/1' as const,
    sensor_id,
    sensor_name: side,
    side,
    mounting: 'foot' as const,
    description,
    settings,
  };
  const first: PacketRecord[] = [
    { kind: 'header', arrival_s: 1000, header },
    {
      kind: 'event',
      arrival_s: 1000,
      event: { event: 'clock', utc_ms: started_ms, monotonic_s: 1000, boot_id: 'before' },
    },
    { kind: 'event', arrival_s: 1000, event: { event: 'link_started' } },
  ];
  const packets = encodePackets(description, settings, longBlock(sprint[side]));
  const records = packets.map(({ bytes, first_sample, samples }) =>
    encodeRecord({ kind: 'packet', arrival_s: 1000 + (first_sample + samples) / RATE_HZ + 0.01, bytes }),
  );
  writeFileSync(join(capture, `S-${side}.packets`), Buffer.concat([...first.map(encodeRecord), ...records]));
  return { sensor_id, place, athlete_ids: [athlete_id] };
});
const record = {
  format: 'capture/1',
  capture_id: 'long',
  kind: 'live',
  started_utc: new Date(started_ms).toISOString(),
  session_id,
  sensors,
  handled: [],
  state: 'running',
};
writeFileSync(join(capture, 'capture.json'), JSON.stringify(record));

/** What a start may take: seconds until it answers, megabytes, milliseconds of a trivial request (99 of 100). */
const ASKED = { listens_s: 2, peak_mb: 300, p99_ms: 50 };
const empty = performance.now();
const other = await ServerProcess.start(join(folder, 'empty'));
console.log(
  `beside an empty folder it listens after ${((performance.now() - empty) / 1000).toFixed(2)} s, ${peakMegabytes(other.pid).toFixed(0)} MB`,
);
await other.close();
const began = performance.now();
const server = await ServerProcess.start(folder);
const listens_s = (performance.now() - began) / 1000;
console.log(`listens after ${listens_s.toFixed(2)} s, ${peakMegabytes(server.pid).toFixed(0)} MB by then`);
const times: number[] = [];
let state = 'running';
let steps = 0;
while (state === 'running' && performance.now() - began < 500_000) {
  const asked = performance.now();
  await (await fetch(`${server.address}/api/health`)).text();
  times.push(performance.now() - asked);
  await new Promise((resolve) => setTimeout(resolve, 20));
  if (steps++ % 25 === 0) state = JSON.parse(readFileSync(join(capture, 'capture.json'), 'utf8')).state;
}
times.sort((a, b) => a - b);
const { items } = (await (await fetch(`${server.address}/api/repetitions?session_id=${session_id}`)).json()) as {
  items: { state: string }[];
};
const peak_mb = peakMegabytes(server.pid);
const p99_ms = times[Math.floor(0.99 * times.length)];
const stored = items.filter((item) => item.state === 'analysed').length;
console.log(`taken up after ${((performance.now() - began) / 1000).toFixed(0)} s, peak ${peak_mb.toFixed(0)} MB`);
console.log(
  `${times.length} trivial requests meanwhile: p50 ${times[times.length >> 1].toFixed(1)} ms, p99 ${p99_ms.toFixed(1)} ms, longest ${times[times.length - 1].toFixed(1)} ms`,
);
console.log(`${stored} of ${sprints} sprints stored`);
const good = listens_s < ASKED.listens_s && peak_mb < ASKED.peak_mb && p99_ms < ASKED.p99_ms && stored === sprints;
console.log(
  `${good ? 'as asked' : 'NOT as asked'}: ${ASKED.listens_s} s, ${ASKED.peak_mb} MB, p99 ${ASKED.p99_ms} ms, every sprint`,
);
if (!good) process.exitCode = 1;
await server.close();
rmSync(folder, { recursive: true, force: true });
