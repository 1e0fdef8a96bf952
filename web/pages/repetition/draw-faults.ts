import type uPlot from 'uplot';
import type { SignalColumn, SignalWindow } from '../../../shared/signal-wire.ts';

/** A stretch of the common clock, s. */
export interface Stretch {
  from_s: number;
  to_s: number;
}

/** A reading within this share of the full scale is at its end. */
const AT_THE_END = 0.995;
/** Stretches nearer to each other than this are drawn as one, s. */
const JOINED_S = 0.004;

const AXES: Record<'acc' | 'gyr', SignalColumn[]> = {
  acc: ['acc_x_mps2', 'acc_y_mps2', 'acc_z_mps2'],
  gyr: ['gyr_x_radps', 'gyr_y_radps', 'gyr_z_radps'],
};

/**
 * Where a quantity lay at the end of the sensor's range in a window. The peaks survive thinning, so none is missed.
 * @returns in order of time; empty where the range is not known
 */
export function clippedStretches({ header, columns }: SignalWindow, kind: 'acc' | 'gyr'): Stretch[] {
  const range = kind === 'acc' ? header.acc_range_mps2 : header.gyr_range_radps;
  const time = columns.time_s;
  if (!range || !time) return [];
  const axes = AXES[kind].flatMap((name) => columns[name] ?? []);
  const stretches: Stretch[] = [];
  for (let i = 0; i < header.count; i++) {
    if (!axes.some((axis) => Math.abs(axis[i]) >= AT_THE_END * range)) continue;
    const at = header.origin_s + time[i];
    const last = stretches.at(-1);
    if (last && at - last.to_s < JOINED_S) last.to_s = at;
    else stretches.push({ from_s: at, to_s: at });
  }
  return stretches;
}

/** Draws gaps as hatched stretches, and a thick bar along the top where the sensor's range ended. */
export function drawFaults(plot: uPlot, gaps: Stretch[], clipped: Stretch[], colour: (name: string) => string): void {
  const { ctx, bbox } = plot;
  const { min = 0, max = 0 } = plot.scales.x;
  const ratio = devicePixelRatio;
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  ctx.clip();
  ctx.strokeStyle = colour('ink');
  ctx.fillStyle = colour('ink');
  const inside = ({ from_s, to_s }: Stretch) => to_s >= min && from_s <= max;
  const places = ({ from_s, to_s }: Stretch, least: number): [number, number] => {
    const x0 = plot.valToPos(from_s, 'x', true);
    const width = Math.max(plot.valToPos(to_s, 'x', true) - x0, least * ratio);
    return [x0, width];
  };
  for (const gap of gaps.filter(inside)) hatch(ctx, bbox, ...places(gap, 3), ratio, colour('sheet'));
  for (const stretch of clipped.filter(inside)) {
    const [x, width] = places(stretch, 2);
    ctx.fillRect(x, bbox.top, width, 6 * ratio);
  }
  ctx.restore();
}

function hatch(
  ctx: CanvasRenderingContext2D,
  { top, height }: uPlot.BBox,
  x: number,
  width: number,
  ratio: number,
  paper: string,
): void {
  ctx.save();
  ctx.beginPath();
  ctx.rect(x, top, width, height);
  ctx.clip();
  ctx.fillStyle = paper;
  ctx.fillRect(x, top, width, height);
  ctx.lineWidth = 1.25 * ratio;
  ctx.beginPath();
  for (let y = top - width; y < top + height; y += 7 * ratio) {
    ctx.moveTo(x, y + width);
    ctx.lineTo(x + width, y);
  }
  ctx.stroke();
  ctx.restore();
  ctx.lineWidth = ratio;
  ctx.setLineDash([]);
  ctx.strokeRect(x, top, width, height);
}
