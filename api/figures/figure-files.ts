import { csvText } from '../csv-text.ts';
import type { Figure } from './figure.ts';
import { figurePdf } from './figure-pdf.ts';
import { figureSvg } from './figure-svg.ts';

/** As a picture, or as the numbers behind it. */
export const FIGURE_FORMS = ['svg', 'pdf', 'csv'] as const;
export type FigureForm = (typeof FIGURE_FORMS)[number];

const FILES: Record<FigureForm, { type: string; make: (figure: Figure) => string | Promise<Buffer> }> = {
  svg: { type: 'image/svg+xml; charset=utf-8', make: figureSvg },
  pdf: { type: 'application/pdf', make: figurePdf },
  csv: { type: 'text/csv; charset=utf-8', make: ({ data }) => csvText(data) },
};

/** A figure as a file, with its media type. */
export async function figureFile(figure: Figure, form: FigureForm): Promise<{ type: string; body: string | Buffer }> {
  const { type, make } = FILES[form];
  return { type, body: await make(figure) };
}
