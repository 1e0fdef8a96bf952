import { sagittalAxis } from '../../dsp/signals/sagittal-axis.ts';
import type { AxisColumns, SampleBlock } from '../../shared/sample-block.ts';
import { RADIANS_PER_DEGREE } from '../../shared/units.ts';

/**
 * A recording whose sensor turns on the leg, about an axis at right angles to the one that the leg swings about (so it cannot be
 * mistaken for the swing).
 * @param angle_deg by the share of the recording that has passed
 */
export function turningSensor(block: SampleBlock, angle_deg: (share: number) => number): SampleBlock {
  // Where nothing swings, any axis will do.
  const swing = sagittalAxis(block.gyr_radps!, 2)?.axis ?? [1, 0, 0];
  const helper = Math.abs(swing[0]) < 0.6 ? [1, 0, 0] : [0, 1, 0];
  const along = helper.reduce((sum, v, k) => sum + v * swing[k], 0);
  const raw = helper.map((v, k) => v - along * swing[k]);
  const [nx, ny, nz] = raw.map((v) => v / Math.hypot(...raw));
  const n = block.time_s.length;
  const turn = ({ x, y, z }: AxisColumns): AxisColumns => {
    const out = { x: new Float64Array(n), y: new Float64Array(n), z: new Float64Array(n) };
    for (let i = 0; i < n; i++) {
      const angle = angle_deg(i / n) * RADIANS_PER_DEGREE;
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      // Rodrigues' rotation.
      const d = (nx * x[i] + ny * y[i] + nz * z[i]) * (1 - c);
      out.x[i] = x[i] * c + (ny * z[i] - nz * y[i]) * s + nx * d;
      out.y[i] = y[i] * c + (nz * x[i] - nx * z[i]) * s + ny * d;
      out.z[i] = z[i] * c + (nx * y[i] - ny * x[i]) * s + nz * d;
    }
    return out;
  };
  return { ...block, acc_mps2: turn(block.acc_mps2), gyr_radps: turn(block.gyr_radps!) };
}
