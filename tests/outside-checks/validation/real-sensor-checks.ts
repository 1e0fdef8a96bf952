/** Real shoe and ankle sensors without contact times: stride rate, and whether walking and standing stay out. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { analyse } from '../../../dsp/analyse.ts';
import type { Contact } from '../../../shared/analysis.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { Mounting } from '../../../shared/words.ts';
import { readSamples, readTable } from './force-plate-cases.ts';
import type { TargetLine } from './targets.ts';

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

/** A mid-stance found in a slow phase of the foot shorter than this lies anywhere in the contact: it dates no stride. */
const CLEAR_SLOW_PHASE_S = 0.13;

/**
 * Stretches of strides that follow each other without a break, from the first to the last mid-stance that the motion
 * capture dates clearly.
 */
function stretchesOf(strides: Record<string, string>[]): { from_s: number; to_s: number; strides: number }[] {
  const stretches: { from_s: number; to_s: number; strides: number }[] = [];
  let open: { from_s: number; to_s: number; strides: number; count: number } | null = null;
  let previousEnd = Number.NaN;
  const close = () => {
    if (open && open.strides > 0) stretches.push(open);
    open = null;
  };
  for (const stride of strides) {
    const start = Number(stride.t_midstance_start_s);
    const clear = Number(stride.slow_foot_phase_s) >= CLEAR_SLOW_PHASE_S;
    if (Math.abs(start - previousEnd) > 0.002) close();
    if (open) {
      open.count++;
      if (clear) Object.assign(open, { to_s: start, strides: open.count });
    } else if (clear) open = { from_s: start, to_s: start, strides: 0, count: 0 };
    previousEnd = Number(stride.t_midstance_end_s);
  }
  close();
  return stretches;
}

export async function realSensorResults(folder: string): Promise<RealSensorResult[]> {
  const results: RealSensorResult[] = [];
  // LMU HAR Lab (2023) Biometrics/Activity Dataset: accelerometer above the ankle, 100 Hz, walk then jog on a treadmill.
  const ankles = join(folder, 'ankle-treadmill-jog');
  for (const row of readTable(join(ankles, 'jog_windows.csv'))) {
    const { contacts, first_s } = await contactsOf(join(ankles, `${row.id}_ankle_treadmill.csv.gz`), 'shank');
    const at = contacts.map((contact) => contact.touchdown_s + first_s);
    const [from, to] = [Number(row.jog_steady_start_s), Number(row.jog_steady_end_s)];
    // The belt speeds up some 10 s before the steady window and slows down some 6 s after it.
    const jogging = (t: number) => t > from - 14 && t < to + 9;
    results.push({
      name: `ankle ${row.id}`,
      reference_stride_rate_hz: Number(row.stride_rate_hz_spectral),
      stride_rate_hz: strideRate(at.filter((t) => t >= from && t <= to)),
      contacts_running: at.filter(jogging).length,
      contacts_elsewhere: at.filter((t) => !jogging(t)).length,
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
    const runs = own.filter((stride) => stride.kind === 'run');
    const inside = (t: number) =>
      runs.some((s) => t > Number(s.t_midstance_start_s) - 0.3 && t < Number(s.t_midstance_end_s) + 0.3);
    let [ours, theirs, compared] = [0, 0, 0];
    for (const stretch of stretchesOf(runs)) {
      const reached = mids.filter((t) => t > stretch.from_s - 0.2 && t < stretch.to_s + 0.2);
      // Only stretches in which both know the same strides say something about the rate.
      if (reached.length !== stretch.strides + 1) continue;
      ours += reached[reached.length - 1] - reached[0];
      theirs += stretch.to_s - stretch.from_s;
      compared += stretch.strides;
    }
    results.push({
      name: file.slice(0, 24),
      // Mid-stance scatters by some 28 ms about the contact's own middle: 8 s make that half a per cent.
      reference_stride_rate_hz: theirs > 8 ? compared / theirs : null,
      stride_rate_hz: theirs > 8 ? compared / ours : null,
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

/** The same as lines to read and as targets. */
export async function realSensorFigures(folder: string): Promise<{ lines: string[]; targets: TargetLine[] }> {
  const results = await realSensorResults(folder);
  const errorOf = (r: RealSensorResult) =>
    r.stride_rate_hz === null || r.reference_stride_rate_hz === null
      ? null
      : 100 * (r.stride_rate_hz / r.reference_stride_rate_hz - 1);
  const lines = results.map((r) => {
    const error = errorOf(r);
    return (
      `${r.name.padEnd(26)}stride rate ${r.stride_rate_hz?.toFixed(3) ?? '-'} Hz, reference ` +
      `${r.reference_stride_rate_hz?.toFixed(3) ?? '-'}, error ${error === null ? '-' : `${error.toFixed(2)} %`}; ` +
      `${r.contacts_running} contacts in running, ${r.contacts_elsewhere} elsewhere`
    );
  });
  const errors = results.map(errorOf).filter((e) => e !== null);
  const worst = errors.reduce((most, e) => (Math.abs(e) > Math.abs(most) ? e : most), 0);
  const elsewhere = results.reduce((sum, r) => sum + r.contacts_elsewhere, 0);
  return {
    lines: [`Real shoe and ankle sensors\n${lines.join('\n')}`],
    targets: [
      {
        what: 'stride rate, real shoe and ankle sensors',
        target: 'every recording within 1 %',
        published: 'references good to about 0.5 %: spectrum, motion capture',
        reached: `worst ${worst.toFixed(2)} % of ${errors.length}`,
        met: errors.length > 0 && Math.abs(worst) <= 1,
      },
      {
        what: 'walking and standing, real sensors',
        target: 'no contact outside running',
        published: 'common practice',
        reached: `${elsewhere} contacts elsewhere`,
        met: elsewhere === 0,
      },
    ],
  };
}
