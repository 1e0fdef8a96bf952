import type { Side } from '../../shared/words.ts';

/** Colours of a figure, by what they stand for. */
export type FigureColour = 'ink' | 'soft' | 'left' | 'right';

/** A line through points, in the figure's own units; null parts it. */
export interface FigureLine {
  points: ([number, number] | null)[];
  colour: FigureColour;
  dash?: [on: number, off: number];
  width?: number;
}

/** One value: its shape tells whose, filling and colour the side. */
export interface FigureMark {
  x: number;
  y: number;
  /** 95 % half-width, drawn as a whisker. */
  half?: number | null;
  side: Side;
  shape: number;
}

/** A region between two lines over the same places. */
export interface FigureArea {
  points: { x: number; low: number; high: number }[];
  opacity: number;
}

/** A plot that stands by itself: what is drawn, what it says, and the numbers behind it. */
export interface Figure {
  title: string;
  caption: string;
  x: FigureAxis;
  y: FigureAxis;
  areas: FigureArea[];
  lines: FigureLine[];
  marks: FigureMark[];
  legend: { label: string; side: Side; shape: number; colour: FigureColour }[];
  /** Every number that is drawn, a row a value. */
  data: Record<string, string | number | null>[];
}

export interface FigureAxis {
  label: string;
  low: number;
  high: number;
  ticks: number[];
  /** How a tick is written; as a number without it. */
  text?: (value: number) => string;
}

/** Points (1/72 inch): a figure across a page of a journal. */
export const FIGURE_WIDTH = 507;
/** Height of the plot itself; title, axis and caption come on top. */
export const PLOT_HEIGHT = 190;
