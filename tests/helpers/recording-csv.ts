import type { SampleBlock } from '../../shared/sample-block.ts';
import { RADIANS_PER_DEGREE } from '../../shared/units.ts';

/** A recording as a sensor's CSV export: seconds, m/s2, degrees a second. */
export function recordingCsv({ time_s, acc_mps2: acc, gyr_radps: gyr }: SampleBlock): string {
  const degrees = (radians: number) => (radians / RADIANS_PER_DEGREE).toFixed(2);
  const rows = ['time_s,acc_x_mps2,acc_y_mps2,acc_z_mps2,gyr_x_dps,gyr_y_dps,gyr_z_dps'];
  for (let i = 0; i < time_s.length; i++) {
    const cells = [time_s[i].toFixed(5), acc.x[i].toFixed(3), acc.y[i].toFixed(3), acc.z[i].toFixed(3)];
    if (gyr) cells.push(degrees(gyr.x[i]), degrees(gyr.y[i]), degrees(gyr.z[i]));
    rows.push(cells.join(','));
  }
  return `${rows.join('\n')}\n`;
}
