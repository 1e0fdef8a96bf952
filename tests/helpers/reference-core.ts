/** The reference sensor's own C program, compiled, and samples as the inertial sensor in it would count them. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import type { SampleBlock } from '../../shared/sample-block.ts';
import type { StreamDescription } from '../../shared/schemas/stream-description.ts';
import { RADIANS_PER_DEGREE, STANDARD_GRAVITY_MPS2 } from '../../shared/units.ts';

const SOURCES = new URL('../../ingest/ble/reference-sensor/', import.meta.url).pathname;
const FLAGS = ['-std=c11', '-Wall', '-Wextra', '-Wpedantic', '-Wconversion', '-Wshadow', '-Werror', '-O1'];

/** @returns what the compiler said, and its exit code */
export function compileCore(binary: string): { stderr: string; status: number | null } {
  const files = ['sensor_core.c', 'flash_log.c', 'host/host_main.c'].map((file) => join(SOURCES, file));
  return spawnSync('gcc', [...FLAGS, '-fsanitize=address,undefined', '-o', binary, ...files], { encoding: 'utf8' });
}

export function inCounts(description: StreamDescription, { acc_mps2, gyr_radps }: SampleBlock): number[][] {
  const acc = description.acc.ranges[0].per_count * STANDARD_GRAVITY_MPS2;
  const gyr = description.gyr!.ranges[0].per_count * RADIANS_PER_DEGREE;
  const clip = (value: number) => Math.max(-32_768, Math.min(32_767, Math.round(value)));
  return Array.from(acc_mps2.x, (_, i) => [
    ...[acc_mps2.x, acc_mps2.y, acc_mps2.z].map((column) => clip(column[i] / acc)),
    ...[gyr_radps!.x, gyr_radps!.y, gyr_radps!.z].map((column) => clip(column[i] / gyr)),
  ]);
}
