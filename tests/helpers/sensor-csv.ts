import type { SampleBlock } from '../../shared/sample-block.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';

const HEADER = 'time_s,acc_x_g,acc_y_g,acc_z_g,gyr_x_dps,gyr_y_dps,gyr_z_dps';

/** A block as a logger would write it: seconds, g and degrees a second, rounded to their last digit. */
export function sensorCsv(block: SampleBlock): string {
  const { acc_mps2: acc, gyr_radps: gyr } = block;
  const lines = [gyr ? HEADER : HEADER.split(',').slice(0, 4).join(',')];
  for (let i = 0; i < block.time_s.length; i++) {
    const cells = [
      block.time_s[i].toFixed(4),
      ...[acc.x[i], acc.y[i], acc.z[i]].map((value) => (value / STANDARD_GRAVITY_MPS2).toFixed(4)),
      ...(gyr ? [gyr.x[i], gyr.y[i], gyr.z[i]].map((value) => (value / RADIANS_PER_DEGREE).toFixed(2)) : []),
    ];
    lines.push(cells.map((cell) => (cell === 'NaN' ? '' : cell)).join(','));
  }
  return `${lines.join('\n')}\n`;
}
