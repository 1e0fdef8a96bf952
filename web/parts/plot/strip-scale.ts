import { niceTicks } from '../../../shared/nice-ticks.ts';
import { formatNumber } from '../../app/format.ts';
import { tickDecimals } from './scale.ts';

export interface StripTick {
  /** Place along the strip, `42.5%`. */
  at: string;
  text: string;
  anchor: 'start' | 'middle' | 'end';
}

export interface StripScale {
  /** Place of a value along the strip, `42.5%`. */
  at: (value: number) => string;
  /** Length between two values, `12.5%`. */
  width: (from: number, to: number) => string;
  /** Round values, the ends among them. */
  ticks: StripTick[];
}

/**
 * The scale of a strip one line high: from a round value below everything drawn to one above it.
 * @param values everything that is drawn on it
 * @param factor from stored to shown units
 */
export function stripScale(values: readonly number[], factor: number): StripScale {
  const shown = values.filter(Number.isFinite).map((value) => value * factor);
  const low = Math.min(...shown);
  const high = Math.max(...shown);
  const spread = high - low || Math.abs(high) * 0.1 || 1;
  const [first, second] = niceTicks(low - spread, high + spread, 9);
  const step = second - first;
  const min = Math.floor(low / step + 1e-9) * step;
  const max = Math.max(min + step, Math.ceil(high / step - 1e-9) * step);
  const place = (value: number) => ((value * factor - min) / (max - min)) * 100;
  // The last word carries the unit and needs more room.
  const span = max - min;
  const inner = niceTicks(min, max, 3).filter((tick) => tick - min > 0.2 * span && max - tick > 0.36 * span);
  const decimals = tickDecimals([min, min + step]);
  const tick = (value: number, anchor: StripTick['anchor']): StripTick => ({
    at: `${place(value / factor).toFixed(2)}%`,
    text: formatNumber(value, decimals),
    anchor,
  });
  return {
    at: (value) => `${place(value).toFixed(2)}%`,
    width: (from, to) => `${(place(to) - place(from)).toFixed(2)}%`,
    ticks: [tick(min, 'start'), ...inner.map((value) => tick(value, 'middle')), tick(max, 'end')],
  };
}
