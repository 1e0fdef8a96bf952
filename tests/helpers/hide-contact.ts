import type { AxisColumns, Gap, SampleBlock } from '../../shared/sample-block.ts';

const eachAxis = ({ x, y, z }: AxisColumns, change: (column: Float64Array) => Float64Array): AxisColumns => ({
  x: change(x),
  y: change(y),
  z: change(z),
});

/** The samples of a stretch lost, as by a break of the radio link. @param from_s on the block's clock */
export function losingStretch(block: SampleBlock, from_s: number, to_s: number): SampleBlock {
  const keep: number[] = [];
  block.time_s.forEach((t, i) => {
    if (t < from_s || t > to_s) keep.push(i);
  });
  const take = (column: Float64Array) => Float64Array.from(keep, (i) => column[i]);
  const gaps: Gap[] = [...block.gaps];
  for (let j = 1; j < keep.length; j++) {
    const lost_samples = keep[j] - keep[j - 1] - 1;
    if (lost_samples > 0) gaps.push({ start_s: block.time_s[keep[j - 1]], end_s: block.time_s[keep[j]], lost_samples });
  }
  return {
    ...block,
    time_s: take(block.time_s),
    acc_mps2: eachAxis(block.acc_mps2, take),
    gyr_radps: block.gyr_radps && eachAxis(block.gyr_radps, take),
    gaps,
  };
}

/** A stretch damped to its mean, as of a sensor that hardly follows the leg: the swing's ends stay, the contact is gone. */
export function dampedStretch(block: SampleBlock, from_s: number, to_s: number, share = 0.03): SampleBlock {
  const within = (i: number): boolean => block.time_s[i] >= from_s && block.time_s[i] <= to_s;
  const damp = (column: Float64Array): Float64Array => {
    const inside = column.filter((_, i) => within(i));
    const mean = inside.reduce((a, b) => a + b, 0) / inside.length;
    return column.map((value, i) => (within(i) ? mean + share * (value - mean) : value));
  };
  return {
    ...block,
    acc_mps2: eachAxis(block.acc_mps2, damp),
    gyr_radps: block.gyr_radps && eachAxis(block.gyr_radps, damp),
  };
}
