import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { formatNumber } from '../../../app/format.ts';
import { displayQuantity, showQuantity } from '../quantity-text.ts';

const common = phrasesOf('common', commonWords);

interface LevelStripProps {
  quantity: string;
  now: number;
  /** 95 % interval of the level now; null where it is not known. */
  interval: { low: number; high: number } | null;
  normal: { low: number; high: number } | null;
  /** Before the block, and its latest sessions. */
  block: { before: number; now: number } | null;
  /** What the coach wants to see. */
  target?: number | null;
  beyond: boolean;
}

const MID = 15;
const HEIGHT = 30;

/**
 * Where a level stands on one line with both ends named: normal as a bar, before the block an open square and a way from there to
 * its latest sessions, an open circle; the last day a filled diamond with its 95 % interval, the coach's aim an upright line. The
 * words beside it say the same.
 */
export function LevelStrip({ quantity, now, interval, normal, block, target = null, beyond }: LevelStripProps) {
  const { factor, decimals } = displayQuantity(quantity);
  const all = [now, interval?.low, interval?.high, normal?.low, normal?.high, block?.before, block?.now, target].filter(
    (value): value is number => value !== null && value !== undefined,
  );
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const pad = (high - low) * 0.1 || Math.abs(now) * 0.05 || 1;
  const span = high - low + 2 * pad;
  const at = (value: number) => `${(((value - low + pad) / span) * 100).toFixed(2)}%`;
  const width = (from: number, to: number) => `${(((to - from) / span) * 100).toFixed(2)}%`;
  return (
    <div class="level-strip">
      <svg width="100%" height={HEIGHT} aria-hidden="true">
        <line class="strip-line" x1="0" x2="100%" y1={MID} y2={MID} />
        {normal && (
          <rect class="band" x={at(normal.low)} width={width(normal.low, normal.high)} y={MID - 9} height="18" />
        )}
        {target !== null && (
          <line class="level-target" x1={at(target)} x2={at(target)} y1="0" y2={HEIGHT}>
            <title>{common('aim', { value: showQuantity(quantity, target) })}</title>
          </line>
        )}
        {block && <line class="level-way" x1={at(block.before)} x2={at(block.now)} y1={MID} y2={MID} />}
        {interval && <line class="strip-half" x1={at(interval.low)} x2={at(interval.high)} y1={MID} y2={MID} />}
        {block && (
          <>
            <svg x={at(block.before)} y={MID} overflow="visible" aria-hidden="true">
              <rect class="level-start" x="-6" y="-6" width="12" height="12" />
            </svg>
            <svg x={at(block.now)} y={MID} overflow="visible" aria-hidden="true">
              <circle class="level-start" r="6.5" />
            </svg>
          </>
        )}
        <svg x={at(now)} y={MID} overflow="visible" aria-hidden="true">
          <path class={beyond ? 'strip-now beyond' : 'strip-now'} d="M0 -10L8 0L0 10L-8 0Z" />
        </svg>
      </svg>
      <p class="level-ends" aria-hidden="true">
        <span>{formatNumber((low - pad) * factor, decimals)}</span>
        <span>{`${formatNumber((high + pad) * factor, decimals)}${unitOf(quantity)}`}</span>
      </p>
    </div>
  );
}

function unitOf(quantity: string): string {
  const { unit } = displayQuantity(quantity);
  return unit === 'deg' ? '°' : unit && ` ${unit}`;
}

/** What the marks of `LevelStrip` mean, in the same shapes. */
export function LevelLegend({ aim }: { aim: boolean }) {
  return (
    <ul class="legend level-legend">
      <li>
        <svg width="22" height="22" aria-hidden="true">
          <path class="strip-now" d="M11 2L18 11L11 20L4 11Z" />
        </svg>
        {common('last_day_with_95_of')}
      </li>
      <li>
        <svg width="22" height="22" aria-hidden="true">
          <rect class="level-start" x="5" y="5" width="12" height="12" />
        </svg>
        {common('before_the_block')}
      </li>
      <li>
        <svg width="22" height="22" aria-hidden="true">
          <circle class="level-start" cx="11" cy="11" r="6.5" />
        </svg>
        {common('latest_sessions_of_the_block')}
      </li>
      <li>
        <svg width="30" height="22" aria-hidden="true">
          <rect class="band" x="0" y="2" width="30" height="18" />
        </svg>
        {common('normal_before_that_day')}
      </li>
      {aim && (
        <li>
          <svg width="10" height="22" aria-hidden="true">
            <line class="level-target" x1="5" x2="5" y1="0" y2="22" />
          </svg>
          {common('your_aim')}
        </li>
      )}
    </ul>
  );
}
