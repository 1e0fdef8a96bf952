import type { SampleBlock } from '../shared/sample-block.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../shared/units.ts';

/**
 * A recording as a sensor's own program would write it: one row a sample, time stamps of the sensor's clock in
 * milliseconds since 1970, acceleration in g, angular rate in degrees a second, as many decimals as the sensor resolves.
 * @param start_ms instant of the first sample, milliseconds since 1970 (UTC)
 */
export function recordingCsv(samples: SampleBlock, start_ms: number): string {
  const { time_s, acc_mps2, gyr_radps } = samples;
  const lines = [`timestamp_ms,acc_x_g,acc_y_g,acc_z_g${gyr_radps ? ',gyr_x_dps,gyr_y_dps,gyr_z_dps' : ''}`];
  const g = 1000 / STANDARD_GRAVITY_MPS2;
  const dps = 10 / RADIANS_PER_DEGREE;
  const { x, y, z } = acc_mps2;
  for (let i = 0; i < time_s.length; i++) {
    const at = Math.round((start_ms + time_s[i] * 1000) * 10) / 10;
    const acc = `${Math.round(x[i] * g) / 1000},${Math.round(y[i] * g) / 1000},${Math.round(z[i] * g) / 1000}`;
    const gyr = gyr_radps
      ? `,${Math.round(gyr_radps.x[i] * dps) / 10},${Math.round(gyr_radps.y[i] * dps) / 10},${Math.round(gyr_radps.z[i] * dps) / 10}`
      : '';
    lines.push(`${at},${acc}${gyr}`);
  }
  lines.push('');
  return lines.join('\n');
}
