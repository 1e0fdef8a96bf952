import type { Judgement } from '../../../../shared/schemas/coach/judgement.ts';

interface NormalStripProps {
  judgement: Judgement;
  height?: number;
}

/**
 * One line: normal variation as a bar with its centre, the day's earlier repetitions as open rings, this one as a filled
 * diamond with its own error. The words beside it say the same.
 */
export function NormalStrip({ judgement, height = 34 }: NormalStripProps) {
  const { value, value_u, normal, earlier_today, beyond } = judgement;
  const half = 1.96 * (value_u ?? 0);
  const all = [value - half, value + half, ...earlier_today, ...(normal ? [normal.low, normal.high] : [])];
  const low = Math.min(...all);
  const high = Math.max(...all);
  const pad = (high - low) * 0.08 || Math.abs(value) * 0.05 || 1;
  const at = (x: number) => `${(((x - low + pad) / (high - low + 2 * pad)) * 100).toFixed(2)}%`;
  const width = (from: number, to: number) => `${(((to - from) / (high - low + 2 * pad)) * 100).toFixed(2)}%`;
  const mid = height / 2;
  return (
    <svg class="normal-strip" width="100%" height={height} aria-hidden="true">
      {normal && (
        <>
          <rect class="band" x={at(normal.low)} width={width(normal.low, normal.high)} y={mid - 11} height="22" />
          <line class="strip-centre" x1={at(normal.centre)} x2={at(normal.centre)} y1={mid - 15} y2={mid + 15} />
        </>
      )}
      <line class="strip-line" x1="0" x2="100%" y1={mid} y2={mid} />
      {earlier_today.map((earlier, index) => (
        <circle key={index} class="strip-earlier" cx={at(earlier)} cy={mid} r="5" />
      ))}
      {half > 0 && <line class="strip-half" x1={at(value - half)} x2={at(value + half)} y1={mid} y2={mid} />}
      <svg x={at(value)} y={mid} overflow="visible" aria-hidden="true">
        <path class={beyond ? 'strip-now beyond' : 'strip-now'} d="M0 -11L9 0L0 11L-9 0Z" />
      </svg>
    </svg>
  );
}
