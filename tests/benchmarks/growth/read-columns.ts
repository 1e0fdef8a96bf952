import { openCsvRecording } from '../../../ingest/csv/open-csv-recording.ts';
import { makeSignal } from '../../ingest/csv/make-signal.ts';
import { measured } from './measured.ts';

const ROWS = 500;

/** @param columns of the file: time, one sensor, and others that say nothing of motion */
export function measure(columns: number) {
  const { acc, gyr } = makeSignal(7, 500, 500, ROWS);
  const others = columns - 7;
  const names = [
    'time_s',
    ...['x', 'y', 'z'].map((axis) => `acc_${axis}_mps2`),
    'gyr_x_radps',
    'gyr_y_radps',
    'gyr_z_radps',
  ];
  const rows = acc.map((triple, row) => {
    const motion = [...triple, ...gyr[row]].map((value) => value.toFixed(4));
    const rest = Array.from({ length: others }, (_, k) => ((row * 7 + k) % 1000) / 8);
    return [(row / 500).toFixed(3), ...motion, ...rest].join(',');
  });
  const header = [...names, ...Array.from({ length: others }, (_, k) => `level_${k}`)].join(',');
  const bytes = Buffer.from(`${header}\n${rows.join('\n')}\n`);
  return measured(async () => {
    const { blocks } = await openCsvRecording(bytes, { file_name: 'wide.csv', layout: { gyr_unit: 'rad/s' } });
    for await (const _block of blocks);
  });
}
