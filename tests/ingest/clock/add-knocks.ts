import type { SampleBlock } from '../../../shared/sample-block.ts';

/** Knocks both sensors against each other: the same sharp pulse at the same instants, each seen along other axes. */
export function addKnocks(block: SampleBlock, instants_s: number[], axis: 'x' | 'y' | 'z'): SampleBlock {
  const acc = { x: block.acc_mps2.x.slice(), y: block.acc_mps2.y.slice(), z: block.acc_mps2.z.slice() };
  for (const instant of instants_s) {
    for (let i = 0; i < block.time_s.length; i++) {
      const t = block.time_s[i] - instant;
      if (t >= 0 && t < 0.05) acc[axis][i] += 150 * Math.exp(-t / 0.008) * Math.sin(t * 500);
    }
  }
  return { ...block, acc_mps2: acc };
}
