import { writeFile } from 'node:fs/promises';
import type { CaptureDetail, CaptureList } from '../../shared/schemas/captures.ts';
import type { Command } from './command.ts';
import { DATA_OPTION, dataFolder } from './data-folder.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';
import type { ApiClient } from './api-client.ts';
import { withApi } from './with-api.ts';

export const capturesCommand: Command = {
  name: 'captures',
  summary: 'What was recorded by radio: list it, look at it, analyse it again, export samples, delete a packet log.',
  operands: '[CAPTURE]',
  options: {
    analyse: { help: 'looks for repetitions again, and stores those that are not in the store' },
    sensor: { value: 'SENSOR', help: 'which sensor of the capture, for --out and --delete' },
    out: { value: 'FILE', help: "writes the sensor's samples as CSV" },
    delete: { help: "deletes the sensor's packet log for good" },
    data: DATA_OPTION,
  },
  details: 'Without a capture: the list. With one: its logs. A replay is started from the page of captures.',
  run: (options, [capture_id]) => withApi(dataFolder(options), (api) => runCaptures(api, capture_id, options)),
};

async function runCaptures(
  api: ApiClient,
  capture_id: string | undefined,
  options: Record<string, unknown>,
): Promise<ExitCode> {
  if (capture_id === undefined) return list(api);
  const path = `/captures/${encodeURIComponent(capture_id)}`;
  if (options.analyse === true) {
    const { stored } = await api.call<{ stored: number }>('POST', `${path}/analyse`);
    process.stdout.write(`${stored} repetitions were found that were not stored, and are now\n`);
    return EXIT.done;
  }
  const log = `${path}/logs/${encodeURIComponent(String(options.sensor ?? ''))}`;
  if (typeof options.out === 'string') {
    const answer = await fetch(`${api.address}/api${log}/samples.csv`);
    if (!answer.ok) {
      process.stderr.write(`${((await answer.json()) as { message: string }).message}\n`);
      return EXIT.inputRefused;
    }
    await writeFile(options.out, await answer.text());
    process.stdout.write(`${options.out}\n`);
    return EXIT.done;
  }
  if (options.delete === true) {
    await api.call('DELETE', log);
    process.stdout.write('the packet log is deleted; stored repetitions keep the packets they were cut with\n');
    return EXIT.done;
  }
  const detail = await api.call<CaptureDetail>('GET', path);
  for (const one of detail.logs) {
    process.stdout.write(
      `${one.sensor_id}  ${one.description_id}  ${one.duration_s.toFixed(1)} s  ${one.rate_hz?.toFixed(1) ?? '-'} Hz  ` +
        `${one.samples} samples, ${one.lost_samples} lost in ${one.gaps} gaps, ${one.unreadable_packets} packets unreadable\n`,
    );
  }
  return EXIT.done;
}

async function list(api: ApiClient): Promise<ExitCode> {
  const { items, problems } = await api.call<CaptureList>('GET', '/captures');
  for (const { capture_id, started_utc, state, sensors, waiting_repetitions } of items) {
    const megabytes = sensors.reduce((sum, sensor) => sum + sensor.bytes, 0) / 1e6;
    const waiting = waiting_repetitions > 0 ? `, ${waiting_repetitions} repetitions wait to be stored` : '';
    process.stdout.write(
      `${capture_id}  ${started_utc.slice(0, 16).replace('T', ' ')}  ${state}  ${sensors.length} sensors, ${megabytes.toFixed(1)} MB${waiting}\n`,
    );
  }
  for (const problem of problems) process.stderr.write(`${problem}\n`);
  return EXIT.done;
}
