import PDFDocument from 'pdfkit';
import { BOLD, bytesOf, PAPER_COLOURS, type Pdf, REGULAR } from '../pdf/pdf-document.ts';
import { drawFigure, type Surface } from './draw-figure.ts';
import { type Figure, FIGURE_WIDTH } from './figure.ts';
import { CIRCLE_RADIUS, markerShape } from './marker-shapes.ts';

const MARGIN = 14;

/** A page of a PDF to draw figures on. */
export function pdfSurface(pdf: Pdf): Surface {
  return {
    rect: (x, y, width, height) => {
      pdf.rect(x, y, width, height).lineWidth(0.7).strokeColor(PAPER_COLOURS.soft).stroke();
    },
    area: (corners, opacity) => {
      if (corners.length < 3) return;
      pdf
        .polygon(...corners)
        .fillColor(PAPER_COLOURS.soft, opacity)
        .fill();
      pdf.fillColor(PAPER_COLOURS.ink, 1);
    },
    line: ([first, ...rest], colour, width, dash) => {
      pdf.moveTo(...first);
      for (const corner of rest) pdf.lineTo(...corner);
      pdf.lineWidth(width).strokeColor(PAPER_COLOURS[colour]);
      if (dash) pdf.dash(dash[0], { space: dash[1] });
      pdf.stroke().undash();
    },
    marker: (x, y, { side, shape }, colour) => {
      const corners = markerShape(shape);
      const outline = corners
        ? pdf.polygon(...corners.map(([a, b]): [number, number] => [x + a, y + b]))
        : pdf.circle(x, y, CIRCLE_RADIUS);
      if (side === 'right') outline.fillColor(PAPER_COLOURS[colour]).fill();
      else outline.lineWidth(0.6).strokeColor(PAPER_COLOURS[colour]).stroke();
    },
    text: (text, x, y, width, align) => {
      pdf.font(REGULAR).fontSize(7.5).fillColor(PAPER_COLOURS.soft);
      pdf.text(text, x, y, { width, align, lineBreak: false });
    },
  };
}

/** A figure as a PDF of its own size, title and caption included. */
export function figurePdf(figure: Figure): Promise<Buffer> {
  const size: [number, number] = [FIGURE_WIDTH + 2 * MARGIN, 380];
  const pdf = new PDFDocument({ size, margin: MARGIN, info: { Title: figure.title, Creator: 'Cinderlane' } });
  const done = bytesOf(pdf);
  pdf.font(BOLD).fontSize(11).fillColor(PAPER_COLOURS.ink).text(figure.title, MARGIN, MARGIN);
  const end = drawFigure(pdfSurface(pdf), figure, MARGIN, MARGIN + 18);
  pdf.font(REGULAR).fontSize(8).fillColor(PAPER_COLOURS.ink);
  pdf.text(figure.caption, MARGIN, end + 4, { width: FIGURE_WIDTH });
  pdf.end();
  return done;
}
