/** Real shoe and ankle sensors without contact times: stride rate, and whether walking and standing stay out. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { readFileSync } from 'node:fs';
import { analyse } from '../../../dsp/analyse.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { Contact } from '../../../shared/analysis.ts';
import type { Mounting } from '../../../shared/words.ts';
import { readSamples, readTable } from './force-plate-cases.ts';

export interface RealSensorResult {
  name: string;
  reference_stride_rate_hz: number | null;
  stride_rate_hz: number | null;
  /** Contacts found where the athlete ran, and where the athlete did not. */
  contacts_running: number;
  contacts_elsewhere: number;
}

async function contactsOf(file: string, mounting: Mounting): Promise<{ contacts: Contact[]; first_s: number }> {
  const samples = await readSamples(file);
  const text = gunzipSync(readFileSync(file)).subarray(0, 400).toString('utf8');
  const first_s = Number(text.split('\n')[1].split(',')[0]);
  const sensor = { side: 'left' as const, mounting, samples, clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0 };
  const analysis = analyse({ sensors: [sensor], course: UNKNOWN_COURSE, conditions: UNKNOWN_CONDITIONS });
  return { contacts: analysis.repetitions.flatMap((repetition) => repetition.contacts), first_s };
}

/** Stride rate over stretches without a missing contact. */
function strideRate(touchdowns: number[]): number | null {
  const strides = touchdowns.slice(1).map((t, i) => t - touchdowns[i]);
  const usual = [...strides].sort((a, b) => a - b)[Math.floor(strides.length / 2)];
  const kept = strides.filter((stride) => stride < 1.5 * usual);
  return kept.length === 0 ? null : kept.length / kept.reduce((sum, stride) => sum + stride, 0);
}

export async function realSensorResults(folder: string): Promise<RealSensorResult[]> {
  const results: RealSensorResult[] = [];
  // LMU HAR Lab (2023) Biometrics/Activity Dataset: accelerometer above the ankle, 100 Hz, walk then jog on a treadmill.
  const ankles = join(folder, 'ankle-treadmill-jog');
  for (const row of readTable(join(ankles, 'jog_windows.csv'))) {
    const { contacts, first_s } = await contactsOf(join(ankles, `${row.id}_ankle_treadmill.csv.gz`), 'shank');
    const at = contacts.map((contact) => contact.touchdown_s + first_s);
    const [from, to] = [Number(row.jog_steady_start_s), Number(row.jog_steady_end_s)];
    results.push({
      name: `ankle ${row.id}`,
      reference_stride_rate_hz: Number(row.stride_rate_hz_spectral),
      stride_rate_hz: strideRate(at.filter((t) => t >= from && t <= to)),
      contacts_running: at.filter((t) => t >= from - 15).length,
      contacts_elsewhere: at.filter((t) => t < from - 15).length,
    });
  }
  // Wagstaff et al. (2021) doi 10.21227/v1z6-9z84: shoe sensor 200 Hz, stride times from motion capture to 10 ms.
  const loops = join(folder, 'shoe-jog-loops');
  const strides = readTable(join(loops, 'strides.csv'));
  for (const file of readdirSync(loops).filter((name) => name.endsWith('.gz'))) {
    const { contacts, first_s } = await contactsOf(join(loops, file), 'foot');
    const own = strides.filter((stride) => stride.file === file);
    const mids = contacts.map(
      (c) => first_s + c.touchdown_s + ((c.toe_off_s ?? c.touchdown_s + 0.25) - c.touchdown_s) / 2,
    );
    if (file.startsWith('walk')) {
      results.push({
        name: file.slice(0, 24),
        reference_stride_rate_hz: null,
        stride_rate_hz: null,
        contacts_running: 0,
        contacts_elsewhere: contacts.length,
      });
      continue;
    }
    const steady = own.filter((stride) => stride.kind === 'run' && Number(stride.stride_time_s) < 0.9);
    const inside = (t: number) =>
      steady.some((s) => t > Number(s.t_midstance_start_s) - 0.1 && t < Number(s.t_midstance_end_s) + 0.1);
    const pairs = mids.slice(1).map((t, i) => [mids[i], t] as const);
    // Compare stride by stride where both know one; then as a rate.
    const matched = steady.flatMap((s) => {
      const start = Number(s.t_midstance_start_s);
      const pair = pairs.find(([a, b]) => Math.abs(a - start) < 0.15 && b - a < 1);
      return pair ? [{ ours: pair[1] - pair[0], theirs: Number(s.stride_time_s) }] : [];
    });
    const total = (key: 'ours' | 'theirs') => matched.reduce((sum, m) => sum + m[key], 0);
    results.push({
      name: file.slice(0, 24),
      reference_stride_rate_hz: matched.length === 0 ? null : matched.length / total('theirs'),
      stride_rate_hz: matched.length === 0 ? null : matched.length / total('ours'),
      contacts_running: mids.filter(inside).length,
      contacts_elsewhere: mids.filter((t) => !inside(t)).length,
    });
  }
  // Karas and others, R data package adeptdata 1.1: accelerometer on the left shoe, 100 Hz, 8 g, outdoors.
  const outdoor = await contactsOf(join(folder, 'shoe-outdoor-run', 'shoe_left.csv.gz'), 'foot');
  const times = outdoor.contacts.map((contact) => contact.touchdown_s);
  const all = times
    .slice(1)
    .map((t, i) => t - times[i])
    .filter((stride) => stride < 1)
    .sort((a, b) => a - b);
  results.push({
    name: 'shoe outdoors',
    reference_stride_rate_hz: 1.309,
    stride_rate_hz: all.length === 0 ? null : 1 / all[Math.floor(all.length / 2)],
    contacts_running: times.length,
    contacts_elsewhere: 0,
  });
  return results;
}

export async function realSensorFigures(folder: string): Promise<string[]> {
  const lines = (await realSensorResults(folder)).map((r) => {
    const error =
      r.stride_rate_hz !== null && r.reference_stride_rate_hz !== null
        ? `${(100 * (r.stride_rate_hz / r.reference_stride_rate_hz - 1)).toFixed(2)} %`
        : '-';
    return `${r.name.padEnd(26)}stride rate ${r.stride_rate_hz?.toFixed(3) ?? '-'} Hz, reference ${r.reference_stride_rate_hz?.toFixed(3) ?? '-'}, error ${error}; ${r.contacts_running} contacts in running, ${r.contacts_elsewhere} elsewhere`;
  });
  return [
    `Real shoe and ankle sensors (target: stride rate within 1 %, none while walking or standing)\n${lines.join('\n')}`,
  ];
}
