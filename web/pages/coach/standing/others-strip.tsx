import type { BesideOthers } from '../../../../shared/schemas/coach/norms.ts';
import { STRIP_AXIS_PX, StripAxis } from '../../../parts/plot/strip-axis.tsx';
import { stripScale } from '../../../parts/plot/strip-scale.ts';
import { displayQuantity } from '../quantity-text.ts';

const HEIGHT = 28;
const MID = HEIGHT / 2;

/** The middle nine of ten people as a bar with their middle, this athlete as a diamond with a standard deviation. Words beside it say the same. */
export function OthersStrip({ one: { quantity, band, own_mean, own_sd } }: { one: BesideOthers }) {
  const { factor, unit } = displayQuantity(quantity);
  const sd = own_sd ?? 0;
  const { at, width, ticks } = stripScale([band.p05, band.p95, own_mean - sd, own_mean + sd], factor);
  return (
    <svg class="normal-strip" width="100%" height={HEIGHT + STRIP_AXIS_PX} aria-hidden="true">
      <rect class="band" x={at(band.p05)} width={width(band.p05, band.p95)} y={MID - 9} height="18" />
      <line class="strip-centre" x1={at(band.p50)} x2={at(band.p50)} y1={MID - 12} y2={MID + 12} />
      {sd > 0 && <line class="strip-half" x1={at(own_mean - sd)} x2={at(own_mean + sd)} y1={MID} y2={MID} />}
      <svg x={at(own_mean)} y={MID} overflow="visible" aria-hidden="true">
        <path class="strip-now" d="M0 -10L8 0L0 10L-8 0Z" />
      </svg>
      <StripAxis ticks={ticks} unit={unit} y={HEIGHT} />
    </svg>
  );
}
