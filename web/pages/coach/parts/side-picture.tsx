import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { phrasesOf } from '../../../app/language.ts';
import type { Judgement } from '../../../../shared/schemas/coach/judgement.ts';
import { STRIP_AXIS_PX, StripAxis } from '../../../parts/plot/strip-axis.tsx';
import { stripScale } from '../../../parts/plot/strip-scale.ts';
import { displayQuantity, showQuantity } from '../quantity-text.ts';

const common = phrasesOf('common', commonWords);

/** Left against right of one quantity, each with its own variation from contact to contact (one SD). */
export function SidePicture({ judgement }: { judgement: Judgement }) {
  const { left, right, quantity, side_sentence } = judgement;
  if (!left || !right) return null;
  const spread = (side: { sd: number | null }) => side.sd ?? 0;
  const { factor, unit } = displayQuantity(quantity);
  const ends = [left, right].flatMap((side) => [side.value - spread(side), side.value + spread(side)]);
  const { at, ticks } = stripScale(ends, factor);
  return (
    <figure class="side-picture">
      <svg width="100%" height={52 + STRIP_AXIS_PX} aria-hidden="true">
        <line
          class="whisker left"
          x1={at(left.value - spread(left))}
          x2={at(left.value + spread(left))}
          y1="12"
          y2="12"
        />
        <line
          class="whisker right"
          x1={at(right.value - spread(right))}
          x2={at(right.value + spread(right))}
          y1="34"
          y2="34"
        />
        <circle class="marker left" cx={at(left.value)} cy="12" r="7.5" />
        <svg x={at(right.value)} y="34" overflow="visible" aria-hidden="true">
          <rect class="marker right" x="-7" y="-7" width="14" height="14" />
        </svg>
        <StripAxis ticks={ticks} unit={unit === 'deg' ? '°' : unit} y={52} />
      </svg>
      <figcaption>
        <span class="side-left">
          {common('left')} {showQuantity(quantity, left.value)}
        </span>{' '}
        <span class="side-right">
          {common('right')} {showQuantity(quantity, right.value)}
        </span>{' '}
        <span>{side_sentence}</span>
      </figcaption>
    </figure>
  );
}
