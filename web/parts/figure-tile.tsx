import { commonWords } from '../../shared/messages/en/view/common.ts';
import { phrasesOf } from '../app/language.ts';
import type { ContactQuantity } from '../../shared/analysis.ts';
import type { Judgement, Normal } from '../../shared/schemas/coach/judgement.ts';
import { displayOf, formatNumber } from '../app/format.ts';
import { STRIP_AXIS_PX, StripAxis } from './plot/strip-axis.tsx';
import { stripScale } from './plot/strip-scale.ts';
import { QuantityValue } from './quantity-value.tsx';

const common = phrasesOf('common', commonWords);

interface FigureTileProps {
  /** Left out: the quantity's own label. */
  label?: string;
  quantity: ContactQuantity;
  value: number | null | undefined;
  u?: number | null;
  reason?: string;
  /** Against the athlete's normal; left out where there is none yet. */
  judgement?: Judgement;
  /** A few words under the number. */
  note?: string;
}

/** One number of a repetition: large, with its uncertainty, over what is normal for this athlete. */
export function FigureTile({ label, quantity, value, u, reason, judgement, note }: FigureTileProps) {
  const { label: ownLabel, decimals, factor, unit } = displayOf(quantity);
  const normal = judgement?.normal ?? null;
  const beyond = judgement?.beyond ?? null;
  return (
    <div class={`figure-tile${beyond === null ? '' : ' is-beyond'}`}>
      <dt>{label ?? ownLabel}</dt>
      <dd>
        <QuantityValue quantity={quantity} value={value} u={u} reason={reason} />
        {normal && value !== null && value !== undefined && (
          <>
            <NormalBar value={value} u={u} normal={normal} beyond={beyond !== null} factor={factor} unit={unit} />
            <span class="figure-note">
              {placeWords(value, normal, beyond)}{' '}
              <span class="quantity">
                {common('range', {
                  low: formatNumber(normal.low * factor, decimals),
                  high: formatNumber(normal.high * factor, decimals),
                })}{' '}
                {unit}
              </span>
              {beyond === null && !isInside(value, normal) && common('not_beyond_chance')}
            </span>
          </>
        )}
        {note && <span class="figure-note">{note}</span>}
      </dd>
    </div>
  );
}

function isInside(value: number, { low, high }: Normal): boolean {
  return value >= low && value <= high;
}

function placeWords(value: number, normal: Normal, beyond: Judgement['beyond']): string {
  if (beyond !== null) return `${beyond === 'above' ? '▲' : '▼'} ${common('beyond_normal')}`;
  return isInside(value, normal) ? common('within_normal') : common('normal');
}

interface NormalBarProps {
  value: number;
  u?: number | null;
  normal: Normal;
  beyond: boolean;
  /** From stored to shown units, and their name. */
  factor: number;
  unit: string;
}

/** Where the value and its uncertainty lie against the normal range; the picture repeats what the words say. */
function NormalBar({ value, u, normal, beyond, factor, unit }: NormalBarProps) {
  const half = 1.96 * (u ?? 0);
  const [low, high] = [normal.centre - normal.flag_from, normal.centre + normal.flag_from];
  const { at, width, ticks } = stripScale([low, high, value - half, value + half], factor);
  return (
    <svg class="normal-bar" width="100%" height={20 + STRIP_AXIS_PX} aria-hidden="true">
      <rect class="band-far" x={at(low)} width={width(low, high)} y="3" height="14" />
      <rect class="band" x={at(normal.low)} width={width(normal.low, normal.high)} y="3" height="14" />
      <line class="band-centre" x1={at(normal.centre)} x2={at(normal.centre)} y1="3" y2="17" />
      <line class="normal-half" x1={at(value - half)} x2={at(value + half)} y1="10" y2="10" />
      <circle class={beyond ? 'normal-dot beyond' : 'normal-dot'} cx={at(value)} cy="10" r="5" />
      <StripAxis ticks={ticks} unit={unit} y={20} />
    </svg>
  );
}
