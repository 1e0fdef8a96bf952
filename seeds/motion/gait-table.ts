/** Value of a table at a speed: straight between its speeds, held beyond them. */
export function interpolate(speeds: readonly number[], values: readonly number[], speed_mps: number): number {
  const v = Math.min(speeds[speeds.length - 1], Math.max(speeds[0], speed_mps));
  let i = 0;
  while (i < speeds.length - 2 && v > speeds[i + 1]) i++;
  return values[i] + ((values[i + 1] - values[i]) * (v - speeds[i])) / (speeds[i + 1] - speeds[i]);
}
