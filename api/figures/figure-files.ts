import { type Figure } from './figure.ts';
import { figurePdf } from './figure-pdf.ts';
import { figureSvg } from './figure-svg.ts';

export const FIGURE_FORMS = ['svg', 'pdf'] as const;
export type FigureForm = (typeof FIGURE_FORMS)[number];

const TYPES: Record<FigureForm, string> = { svg: 'image/svg+xml; charset=utf-8', pdf: 'application/pdf' };

/** A figure as a file, with its media type. */
export async function figureFile(figure: Figure, form: FigureForm): Promise<{ type: string; body: string | Buffer }> {
  return { type: TYPES[form], body: form === 'svg' ? figureSvg(figure) : await figurePdf(figure) };
}
