import type { AxisColumns, SampleBlock } from '../../../shared/sample-block.ts';

/** Joins blocks that follow each other into one. */
export function joinBlocks(blocks: SampleBlock[]): SampleBlock {
  if (blocks.length === 1) return blocks[0];
  const join = (column: (block: SampleBlock) => Float64Array): Float64Array => {
    const whole = new Float64Array(blocks.reduce((sum, block) => sum + block.time_s.length, 0));
    let at = 0;
    for (const block of blocks) {
      whole.set(column(block), at);
      at += block.time_s.length;
    }
    return whole;
  };
  const joinAxes = (axes: (block: SampleBlock) => AxisColumns): AxisColumns => ({
    x: join((block) => axes(block).x),
    y: join((block) => axes(block).y),
    z: join((block) => axes(block).z),
  });
  return {
    ...blocks[blocks.length - 1],
    time_s: join((block) => block.time_s),
    acc_mps2: joinAxes((block) => block.acc_mps2),
    gyr_radps: blocks[0].gyr_radps ? joinAxes((block) => block.gyr_radps!) : null,
    gaps: blocks.flatMap((block) => block.gaps),
  };
}
