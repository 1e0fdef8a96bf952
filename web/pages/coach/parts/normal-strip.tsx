import type { Judgement } from '../../../../shared/schemas/coach/judgement.ts';
import { STRIP_AXIS_PX, StripAxis } from '../../../parts/plot/strip-axis.tsx';
import { stripScale } from '../../../parts/plot/strip-scale.ts';
import { displayQuantity } from '../quantity-text.ts';

interface NormalStripProps {
  judgement: Judgement;
  /** Of the picture above its scale, px. */
  height?: number;
}

/**
 * One line over a scale: normal variation as a bar with its centre, the day's earlier repetitions as open rings, this one as a
 * filled diamond with its own error. The words beside it say the same.
 */
export function NormalStrip({ judgement, height = 28 }: NormalStripProps) {
  const { quantity, value, value_u, normal, earlier_today, beyond } = judgement;
  const { factor, unit } = displayQuantity(quantity);
  const half = 1.96 * (value_u ?? 0);
  const all = [value - half, value + half, ...earlier_today, ...(normal ? [normal.low, normal.high] : [])];
  const { at, width, ticks } = stripScale(all, factor);
  const mid = height / 2;
  return (
    <svg class="normal-strip" width="100%" height={height + STRIP_AXIS_PX} aria-hidden="true">
      {normal && (
        <>
          <rect class="band" x={at(normal.low)} width={width(normal.low, normal.high)} y={mid - 9} height="18" />
          <line class="strip-centre" x1={at(normal.centre)} x2={at(normal.centre)} y1={mid - 12} y2={mid + 12} />
        </>
      )}
      {earlier_today.map((earlier, index) => (
        <circle key={index} class="strip-earlier" cx={at(earlier)} cy={mid} r="4.5" />
      ))}
      {half > 0 && <line class="strip-half" x1={at(value - half)} x2={at(value + half)} y1={mid} y2={mid} />}
      <svg x={at(value)} y={mid} overflow="visible" aria-hidden="true">
        <path class={beyond ? 'strip-now beyond' : 'strip-now'} d="M0 -10L8 0L0 10L-8 0Z" />
      </svg>
      <StripAxis ticks={ticks} unit={unit === 'deg' ? '°' : unit === '1' ? '' : unit} y={height} />
    </svg>
  );
}
