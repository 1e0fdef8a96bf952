/** A linear map from values to pixels. */
export interface Scale {
  (value: number): number;
  invert: (pixel: number) => number;
  min: number;
  max: number;
}

export function linearScale(min: number, max: number, from_px: number, to_px: number): Scale {
  const span = max - min || 1;
  const scale = ((value: number) => from_px + ((value - min) / span) * (to_px - from_px)) as Scale;
  scale.invert = (pixel) => min + ((pixel - from_px) / (to_px - from_px || 1)) * span;
  scale.min = min;
  scale.max = max;
  return scale;
}

/** Decimals that tell ticks `step` apart. */
export function tickDecimals(ticks: number[]): number {
  if (ticks.length < 2) return 0;
  return Math.max(0, -Math.floor(Math.log10(Math.abs(ticks[1] - ticks[0])) + 1e-9));
}

/**
 * Range that holds all values with a margin, never narrower than `least`, so that noise is not blown up to fill a plot.
 */
export function rangeOf(values: Iterable<number | null | undefined>, least: number, margin = 0.06): [number, number] {
  let low = Infinity;
  let high = -Infinity;
  for (const value of values) {
    if (value === null || value === undefined || !Number.isFinite(value)) continue;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (low > high) return [0, least];
  const missing = Math.max(0, least - (high - low)) / 2;
  const pad = Math.max(high - low, least) * margin;
  return [low - missing - pad, high + missing + pad];
}
