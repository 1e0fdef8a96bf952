import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import { niceTicks } from '../../../shared/nice-ticks.ts';
import type { Picture, Shape, Tone } from '../../../shared/schemas/coach/report.ts';
import { numberText, shortNumberText } from '../words/quantity-words.ts';

export const PICTURE_WIDTH = 520;
export const PICTURE_HEIGHT = 152;
const MARGIN = { left: 44, right: 10, top: 20, bottom: 30 };
const TEXT = 8.5;

export interface PlotPoint {
  x: number;
  y: number | null;
  beyond?: boolean;
}

export interface PlotSeries {
  points: PlotPoint[];
  form: 'circle' | 'square' | 'diamond' | 'ring' | 'none';
  tone: Tone;
  joined: boolean;
  dashed?: boolean;
  /** Written at the end of the series. */
  name?: string;
}

export interface PlotBand {
  points: { x: number; low: number; high: number }[];
}

export interface PlotDescription {
  title: string;
  description: string;
  x_label: string;
  y_label: string;
  series: PlotSeries[];
  bands?: PlotBand[];
  /** Tick places of the x axis with their words; found from the data when left out. */
  x_ticks?: { x: number; text: string }[];
  y_decimals: number;
  /** Of the language that ticks are written in. */
  words: JudgementWords;
  /** The y axis spans at least this much, so that noise is not blown up. */
  y_least: number;
}

/** Draws a plot with axes, bands and series into shapes. Series and bands without any value leave the plot empty. */
export function drawPlot(plot: PlotDescription): Picture {
  const points = plot.series.flatMap((series) => series.points);
  const bands = plot.bands ?? [];
  const xs = [...points.map((point) => point.x), ...bands.flatMap((band) => band.points.map((point) => point.x))];
  const ys = [
    ...points.flatMap((point) => (point.y === null ? [] : [point.y])),
    ...bands.flatMap((band) => band.points.flatMap((point) => [point.low, point.high])),
  ];
  const shapes: Shape[] = [];
  if (ys.length > 0) {
    const [x_min, x_max] = padded(Math.min(...xs), Math.max(...xs), 1, 0.03);
    const [y_min, y_max] = padded(Math.min(...ys), Math.max(...ys), plot.y_least, 0.08);
    const right = PICTURE_WIDTH - MARGIN.right;
    const bottom = PICTURE_HEIGHT - MARGIN.bottom;
    const x = (value: number) => MARGIN.left + ((value - x_min) / (x_max - x_min)) * (right - MARGIN.left);
    const y = (value: number) => bottom - ((value - y_min) / (y_max - y_min)) * (bottom - MARGIN.top);
    for (const band of bands) shapes.push(bandShape(band, x, y));
    shapes.push(...yAxis(y_min, y_max, y, right, plot), ...xAxis(plot, x_min, x_max, x, bottom, right));
    for (const series of plot.series) shapes.push(...seriesShapes(series, x, y));
  } else {
    shapes.push(text(PICTURE_WIDTH / 2, PICTURE_HEIGHT / 2, 'not measured', 'middle'));
  }
  return { title: plot.title, description: plot.description, width: PICTURE_WIDTH, height: PICTURE_HEIGHT, shapes };
}

type Place = (value: number) => number;

function bandShape(band: PlotBand, x: Place, y: Place): Shape {
  const upper = band.points.map((point): [number, number] => [x(point.x), y(point.high)]);
  const lower = [...band.points].reverse().map((point): [number, number] => [x(point.x), y(point.low)]);
  return { kind: 'area', points: [...upper, ...lower], tone: 'band' };
}

function seriesShapes(series: PlotSeries, x: Place, y: Place): Shape[] {
  const known = series.points.filter((point): point is PlotPoint & { y: number } => point.y !== null);
  const shapes: Shape[] = [];
  if (series.joined && known.length > 1) {
    const points = known.map((point): [number, number] => [x(point.x), y(point.y)]);
    shapes.push({ kind: 'line', points, tone: series.tone, width: 1.4, dashed: series.dashed ?? false });
  }
  if (series.form !== 'none') {
    for (const point of known) {
      const tone = point.beyond ? 'beyond' : series.tone;
      shapes.push({ kind: 'mark', form: series.form, x: x(point.x), y: y(point.y), size: point.beyond ? 4 : 3, tone });
    }
  }
  return shapes;
}

function yAxis(min: number, max: number, y: Place, right: number, plot: PlotDescription): Shape[] {
  const shapes: Shape[] = [];
  for (const tick of niceTicks(min, max, 4)) {
    shapes.push({
      kind: 'line',
      points: [
        [MARGIN.left, y(tick)],
        [right, y(tick)],
      ],
      tone: 'rule',
      width: 0.5,
      dashed: false,
    });
    shapes.push(text(MARGIN.left - 5, y(tick) + 3, numberText(tick, plot.y_decimals, plot.words), 'end'));
  }
  shapes.push(text(0, 9, plot.y_label, 'start', 'soft'));
  return shapes;
}

function xAxis(plot: PlotDescription, min: number, max: number, x: Place, bottom: number, right: number): Shape[] {
  const ticks =
    plot.x_ticks ??
    niceTicks(min, max, 8).map((value) => ({
      x: value,
      text: shortNumberText(value, plot.words),
    }));
  const shapes: Shape[] = [
    {
      kind: 'line',
      points: [
        [MARGIN.left, bottom],
        [right, bottom],
      ],
      tone: 'ink',
      width: 0.9,
      dashed: false,
    },
  ];
  for (const tick of ticks) shapes.push(text(x(tick.x), bottom + 11, tick.text, 'middle'));
  shapes.push(text((MARGIN.left + right) / 2, bottom + 24, plot.x_label, 'middle', 'soft'));
  return shapes;
}

function text(x: number, y: number, words: string, anchor: 'start' | 'middle' | 'end', tone: Tone = 'ink'): Shape {
  return { kind: 'text', x, y, text: words, size: TEXT, bold: false, anchor, tone };
}

function padded(low: number, high: number, least: number, share: number): [number, number] {
  const missing = Math.max(0, least - (high - low)) / 2;
  const pad = Math.max(high - low, least) * share;
  return [low - missing - pad, high + missing + pad];
}
