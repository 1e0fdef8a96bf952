import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { phrasesOf } from '../../../app/language.ts';
import type { Judgement } from '../../../../shared/schemas/coach/judgement.ts';
import { showQuantity } from '../quantity-text.ts';

const common = phrasesOf('common', commonWords);

/** Left against right of one quantity, each with its own variation from contact to contact (one SD). */
export function SidePicture({ judgement }: { judgement: Judgement }) {
  const { left, right, quantity, side_sentence } = judgement;
  if (!left || !right) return null;
  const spread = (side: { sd: number | null }) => side.sd ?? 0;
  const low = Math.min(left.value - spread(left), right.value - spread(right));
  const high = Math.max(left.value + spread(left), right.value + spread(right));
  const pad = (high - low) * 0.12 || 1;
  const at = (x: number) => `${(((x - low + pad) / (high - low + 2 * pad)) * 100).toFixed(2)}%`;
  return (
    <figure class="side-picture">
      <svg width="100%" height="58" aria-hidden="true">
        <line
          class="whisker left"
          x1={at(left.value - spread(left))}
          x2={at(left.value + spread(left))}
          y1="16"
          y2="16"
        />
        <line
          class="whisker right"
          x1={at(right.value - spread(right))}
          x2={at(right.value + spread(right))}
          y1="42"
          y2="42"
        />
        <circle class="marker left" cx={at(left.value)} cy="16" r="8" />
        <svg x={at(right.value)} y="42" overflow="visible" aria-hidden="true">
          <rect class="marker right" x="-7.5" y="-7.5" width="15" height="15" />
        </svg>
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
