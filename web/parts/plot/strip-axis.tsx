import type { StripTick } from './strip-scale.ts';

/** Room that the axis of a strip takes under its line, px. */
export const STRIP_AXIS_PX = 22;

/** Line, ticks and their values under a strip; the unit stands with the last. */
export function StripAxis({ ticks, unit, y }: { ticks: StripTick[]; unit: string; y: number }) {
  return (
    <g class="strip-axis">
      <line x1="0" x2="100%" y1={y} y2={y} />
      {ticks.map(({ at, text, anchor }) => (
        <g key={at}>
          <line x1={at} x2={at} y1={y} y2={y + 4} />
          <text x={at} y={y + 17} text-anchor={anchor}>
            {anchor === 'end' && unit ? `${text} ${unit}` : text}
          </text>
        </g>
      ))}
    </g>
  );
}
