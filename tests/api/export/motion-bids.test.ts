import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { changedFiles } from '../../../api/export/checksums.ts';
import { recordExport } from '../../../api/export/export-records.ts';
import { motionBidsLines } from '../../../api/export/motion-bids/import-lines.ts';
import { parseStem } from '../../../api/export/motion-bids/names.ts';
import { readMotionFile, readTsv } from '../../../api/export/motion-bids/read-motion-bids.ts';
import { reproduce } from '../../../api/export/motion-bids/reproduce.ts';
import { folderSink } from '../../../api/export/sink.ts';
import { writeExport } from '../../../api/export/formats/write-export.ts';
import { readRecording } from '../../../api/store/read-samples.ts';
import { listContacts } from '../../../api/store/analyses.ts';
import { stepsCsv } from '../../../api/measuring/steps-csv.ts';
import { outsideTool } from '../../helpers/outside-tools.ts';
import { sprintFiles } from '../../helpers/sprint-files.ts';
import { openTestApi, type TestApi } from '../../helpers/test-api.ts';

let api: TestApi;
let folder: string;
let files: string[];
beforeAll(async () => {
  api = await openTestApi();
  const place = await api.athleteAndSession();
  const { left, right } = sprintFiles();
  await api.import({ ...place, mounting: 'foot', effort_percent: 100, course: '30m', time: '5.3s' }, { left, right });
  await api.call('PUT', `/athletes/${place.athlete_id}/research-consent`, {
    status: 'given',
    status_date: '2026-11-01',
  });
  folder = mkdtempSync(join(tmpdir(), 'cinderlane-bids-'));
  await writeExport(api.store, recordExport(api.store, { kind: 'motion_bids' }), folderSink(folder));
  files = readdirSync(folder, { recursive: true }) as string[];
});
afterAll(async () => {
  await api.close();
  rmSync(folder, { recursive: true, force: true });
});

const motionFiles = () => files.filter((name) => name.endsWith('_motion.tsv')).map((name) => join(folder, name));

// Rules from the BIDS specification, motion modality (bids-standard/bids-specification, motion.md).
describe('a Motion-BIDS export', () => {
  it('names files by the entities in their order, with all four files a tracking system', () => {
    expect(motionFiles().length).toBe(2);
    for (const file of motionFiles()) {
      const name = file.slice(file.lastIndexOf('/') + 1);
      expect(parseStem(name)).toMatchObject({ task: 'sprint', run: '1' });
      for (const ending of ['motion.json', 'channels.tsv', 'channels.json', 'events.tsv', 'events.json']) {
        expect(files.some((other) => other.endsWith(name.replace('motion.tsv', ending)))).toBe(true);
      }
    }
  });

  it('has as many columns as channels, counts that add up, and a rate that fits samples and duration', () => {
    for (const file of motionFiles()) {
      const channels = readTsv(file.replace('_motion.tsv', '_channels.tsv'));
      const sidecar = JSON.parse(readFileSync(file.replace('.tsv', '.json'), 'utf8'));
      const lines = readFileSync(file, 'utf8').trimEnd().split('\n');
      expect(Object.keys(channels[0]).slice(0, 5)).toEqual(['name', 'component', 'type', 'tracked_point', 'units']);
      expect(lines[0].split('\t').length).toBe(channels.length);
      expect(sidecar.MotionChannelCount).toBe(channels.length);
      expect(sidecar.ACCELChannelCount + sidecar.GYROChannelCount + sidecar.LATENCYChannelCount).toBe(channels.length);
      expect((lines.length - 1) / sidecar.RecordingDuration).toBeCloseTo(sidecar.SamplingFrequencyEffective, 3);
      expect(new Set(channels.map((c) => c.units))).toEqual(new Set(['s', 'm/s^2', 'rad/s']));
    }
  });

  it('carries touchdown and toe-off as events on the clock of each sensor', () => {
    for (const file of motionFiles()) {
      const events = readTsv(file.replace('_motion.tsv', '_events.tsv'));
      const onsets = events.map((event) => Number(event.onset));
      expect(onsets).toEqual([...onsets].sort((a, b) => a - b));
      expect(new Set(events.map((event) => event.trial_type))).toEqual(new Set(['touchdown', 'toe-off']));
    }
  });

  it('names each participant once, as the folders do, with an age and no name', () => {
    const participants = readTsv(join(folder, 'participants.tsv'));
    const folders = readdirSync(folder).filter((name) => name.startsWith('sub-'));
    expect(participants.map((row) => row.participant_id)).toEqual(folders);
    expect(readFileSync(join(folder, 'participants.tsv'), 'utf8')).not.toContain('Rosa');
  });

  it('passes the public BIDS validator', (context) => {
    // Outside check: bids-validator 1.15, installed apart from the project as it is far larger than it (.ci/run does).
    const validator = outsideTool('bids-validator/bin/bids-validator');
    if (!validator) return context.skip('no $OUTSIDE_TOOLS: see tests/helpers/outside-tools.ts');
    const run = spawnSync(process.execPath, [validator, folder, '--json'], { encoding: 'utf8', maxBuffer: 1 << 26 });
    const { issues } = JSON.parse(run.stdout) as { issues: { errors: { key: string }[] } };
    expect(issues.errors.map((error) => error.key)).toEqual([]);
  });

  it('comes back sample by sample, to the last bit', () => {
    const [left] = motionFiles().sort();
    const own = join(folder, 'derivatives/cinderlane', left.slice(folder.length)).replace(
      '_motion.tsv',
      '_desc-recording.json',
    );
    const back = readMotionFile(left, own);
    const kept = readRecording(api.store, 1);
    expect(back.side).toBe('left');
    expect(back.samples.time_s).toEqual(kept.samples.time_s);
    expect(back.samples.acc_mps2).toEqual(kept.samples.acc_mps2);
    expect(back.samples.gyr_radps).toEqual(kept.samples.gyr_radps);
    expect(back.samples.sampling_rate_hz).toBe(kept.samples.sampling_rate_hz);
  });

  it('is imported again and analysed to the same bytes', async () => {
    const [line] = motionBidsLines(folder);
    const other = await openTestApi();
    try {
      const place = await other.athleteAndSession();
      const bytes = (side: 'left' | 'right') => readFileSync(line.files[side]!);
      const form = Object.fromEntries(Object.entries(line.form).filter(([, value]) => value !== undefined));
      const { body } = await other.import({ ...place, ...form }, { left: bytes('left'), right: bytes('right') });
      expect(body.fault).toBeNull();
      const steps = ({ store }: TestApi) => stepsCsv(listContacts(store, 1));
      expect(steps(other)).toBe(steps(api));
    } finally {
      await other.close();
    }
  });

  it('tells at the open level no true date, body, number of the house or hash, and is reproduced all the same', async () => {
    await api.call('PATCH', '/athletes/1', { body_mass_kg: 71.3619, stature_m: 1.83471, birth_date: '2006-03-04' });
    await api.call('PATCH', '/sessions/1', { temperature_c: 17.32715, pressure_hpa: 1009.27134 });
    const open = mkdtempSync(join(tmpdir(), 'cinderlane-open-'));
    await writeExport(api.store, recordExport(api.store, { kind: 'motion_bids', level: 'open' }), folderSink(open));
    const names = (readdirSync(open, { recursive: true }) as string[]).filter((name) =>
      /\.(tsv|json|csv|md)$/.test(name),
    );
    // Samples are numbers of any kind; everything else is looked through.
    const said = names
      .filter((name) => !name.endsWith('_motion.tsv'))
      .map((name) => readFileSync(join(open, name), 'utf8'));
    const { raw_sha256 } = api.store.prepare('SELECT raw_sha256 FROM raw_files LIMIT 1').get() as {
      raw_sha256: string;
    };
    for (const secret of ['2026-', '71.3619', '1.83471', '17.32715', '1009.27134', raw_sha256, 'Rosa'])
      expect(said.filter((text) => text.includes(secret)).length, secret).toBe(0);
    // BIDS: shifted dates are those of 1925 and before (specification, scans.tsv, acq_time).
    const [scans] = names.filter((name) => name.endsWith('_scans.tsv'));
    for (const { acq_time } of readTsv(join(open, scans)))
      expect(Number(acq_time.slice(0, 4))).toBeLessThanOrEqual(1925);
    expect([...reproduce(open)].map((result) => result.same)).toEqual([true]);
    const validator = outsideTool('bids-validator/bin/bids-validator');
    if (validator) {
      const run = spawnSync(process.execPath, [validator, open, '--json'], { encoding: 'utf8', maxBuffer: 1 << 26 });
      const { issues } = JSON.parse(run.stdout) as { issues: { errors: { key: string }[] } };
      expect(issues.errors.map((error) => error.key)).toEqual([]);
    }
    rmSync(open, { recursive: true });
  });

  it('has a checksum of every file, by which a raw sample that was changed is told', () => {
    expect(changedFiles(folder)).toEqual([]);
    const raw = files.find((name) => name.endsWith('_motion.tsv'))!;
    const path = join(folder, raw);
    const bytes = readFileSync(path);
    const changed = Buffer.from(bytes);
    changed[changed.length - 2] = changed[changed.length - 2] === 0x31 ? 0x32 : 0x31;
    writeFileSync(path, changed);
    expect(changedFiles(folder)).toEqual([{ file: raw, problem: 'changed' }]);
    rmSync(path);
    expect(changedFiles(folder)).toEqual([{ file: raw, problem: 'missing' }]);
    writeFileSync(path, bytes);
  });

  it('is reproduced byte for byte, and says which cells differ when they do', () => {
    expect([...reproduce(folder)].map((result) => result.same)).toEqual([true]);
    const steps = join(folder, files.find((name) => name.endsWith('_steps.csv'))!);
    const text = readFileSync(steps, 'utf8');
    const rows = text.split('\n');
    const cells = rows[1].split(',');
    cells[5] = String(Number(cells[5]) + 1);
    writeFileSync(steps, [rows[0], cells.join(','), ...rows.slice(2)].join('\n'));
    const [changed] = [...reproduce(folder)];
    expect(changed).toMatchObject({ same: false, differing_cells: 1 });
    expect(changed.greatest[0].column).toBe('contact_time_ms');
    expect(changed.greatest[0].difference).toBeCloseTo(1, 6);
    writeFileSync(steps, text);
  });
});
