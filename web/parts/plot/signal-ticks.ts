import type uPlot from 'uplot';
import { niceTicks } from '../../../shared/nice-ticks.ts';
import { formatNumber } from '../../app/format.ts';
import { tickDecimals } from './scale.ts';

/**
 * Ticks of a signal on canvas, as every drawn plot and report has them: the same round steps, written in the reader's language.
 * @param apart_px about how far they stand from one another
 * @param length_px how long the axis is drawn
 */
export function signalTicks(
  apart_px: number,
  length_px: (plot: uPlot) => number,
): Pick<uPlot.Axis, 'splits' | 'values'> {
  return {
    splits: (plot, _axis, min, max) => niceTicks(min, max, Math.max(2, Math.floor(length_px(plot) / apart_px))),
    values: (_plot, ticks) => ticks.map((tick) => formatNumber(tick, tickDecimals(ticks))),
  };
}
