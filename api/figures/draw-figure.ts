import type { Figure, FigureColour, FigureMark } from './figure.ts';
import { FIGURE_WIDTH, PLOT_HEIGHT } from './figure.ts';

/** What a figure is drawn on; the upper left corner is 0, 0, lengths are points. */
export interface Surface {
  rect(x: number, y: number, width: number, height: number): void;
  area(corners: [number, number][], opacity: number): void;
  line(corners: [number, number][], colour: FigureColour, width: number, dash?: [number, number]): void;
  /** Hollow for a left foot, filled for a right one. */
  marker(x: number, y: number, mark: Pick<FigureMark, 'side' | 'shape'>, colour: FigureColour): void;
  text(text: string, x: number, y: number, width: number, align: 'left' | 'right' | 'center'): void;
}

const LEFT_OF_PLOT = 44;
const ABOVE_PLOT = 18;
const TICK = 2.5;
/** Points keep off the frame. */
const ROOM = 6;
/** Axis, its label and the legend. */
export const BELOW_PLOT = 42;
const MOST_IN_LEGEND = 12;

export const sideColour = (side: FigureMark['side']): FigureColour =>
  side === 'right' ? 'right' : side === 'left' ? 'left' : 'ink';

/**
 * Draws a figure with its axes and legend, not its title or caption.
 * @param top where it begins
 * @returns where it ends
 */
export function drawFigure(surface: Surface, figure: Figure, left: number, top: number): number {
  const { x, y } = figure;
  const [x0, y0] = [left + LEFT_OF_PLOT, top + ABOVE_PLOT];
  const [w, h] = [FIGURE_WIDTH - LEFT_OF_PLOT - 10, PLOT_HEIGHT];
  const sx = (value: number) => x0 + ROOM + ((value - x.low) / Math.max(x.high - x.low, 1e-9)) * (w - 2 * ROOM);
  const sy = (value: number) => y0 + h - ((value - y.low) / Math.max(y.high - y.low, 1e-9)) * h;
  surface.text(y.label, x0, y0 - 12, w, 'left');
  for (const { points, opacity } of figure.areas)
    surface.area(
      [
        ...points.map((p): [number, number] => [sx(p.x), sy(clamped(p.high, y))]),
        ...[...points].reverse().map((p): [number, number] => [sx(p.x), sy(clamped(p.low, y))]),
      ],
      opacity,
    );
  surface.rect(x0, y0, w, h);
  for (const tick of y.ticks) {
    surface.line(
      [
        [x0 - TICK, sy(tick)],
        [x0, sy(tick)],
      ],
      'soft',
      0.7,
    );
    surface.text((y.text ?? tickText)(tick), x0 - 42, sy(tick) - 4, 38, 'right');
  }
  for (const tick of x.ticks) {
    surface.line(
      [
        [sx(tick), y0 + h],
        [sx(tick), y0 + h + TICK],
      ],
      'soft',
      0.7,
    );
    surface.text((x.text ?? tickText)(tick), sx(tick) - 30, y0 + h + 3, 60, 'center');
  }
  surface.text(x.label, x0, y0 + h + 14, w, 'center');
  for (const { points, colour, dash, width = 1 } of figure.lines) {
    for (const run of runsOf(points))
      surface.line(
        run.map(([a, b]) => [sx(a), sy(clamped(b, y))]),
        colour,
        width,
        dash,
      );
  }
  for (const mark of figure.marks) {
    const colour = sideColour(mark.side);
    const at = sx(mark.x);
    if (mark.half)
      surface.line(
        [
          [at, sy(clamped(mark.y - mark.half, y))],
          [at, sy(clamped(mark.y + mark.half, y))],
        ],
        colour,
        0.6,
      );
    surface.marker(at, sy(mark.y), mark, colour);
  }
  legend(surface, figure, x0, y0 + h + 26, w);
  return y0 + h + BELOW_PLOT;
}

function legend(surface: Surface, { legend: all }: Figure, x0: number, y: number, w: number): void {
  const shown = all.slice(0, MOST_IN_LEGEND);
  const step = w / Math.max(1, shown.length);
  shown.forEach(({ label, side, shape, colour }, k) => {
    const cut = k === MOST_IN_LEGEND - 1 && all.length > MOST_IN_LEGEND;
    surface.marker(x0 + step * k + 4, y + 4, { side, shape }, colour);
    surface.text(cut ? '...' : label, x0 + step * k + 9, y, step - 10, 'left');
  });
}

/** A line in the parts between what is missing. */
function runsOf(points: Figure['lines'][number]['points']): [number, number][][] {
  const runs: [number, number][][] = [[]];
  for (const point of points) {
    if (point === null) runs.push([]);
    else runs[runs.length - 1].push(point);
  }
  return runs.filter((run) => run.length > 1);
}

const clamped = (value: number, { low, high }: Figure['y']) => Math.min(high, Math.max(low, value));

function tickText(value: number): string {
  return String(Number(value.toPrecision(6)));
}
