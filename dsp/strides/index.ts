export { fillStrides, type StrideResult } from './fill-strides.ts';
export type { StrideContext } from './stride-context.ts';
