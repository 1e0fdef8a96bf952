/** Trees that are written by hand. */
import type { Trees } from '../../dsp/learned/trees.ts';

/**
 * @param roots index of each tree's first node
 * @param nodes the number that is asked for, up to which value left, how far right; or LEAF and its outputs
 */
export function treesOf(roots: readonly number[], nodes: readonly (readonly [number, number, number])[]): Trees {
  return {
    roots: Uint32Array.from(roots),
    feature: Uint16Array.from(nodes, (node) => node[0]),
    threshold: Int16Array.from(nodes, (node) => node[1]),
    right: Int16Array.from(nodes, (node) => node[2]),
  };
}
