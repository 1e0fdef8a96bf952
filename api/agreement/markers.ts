import type { Pdf } from '../pdf/pdf-document.ts';

type Outline = (pdf: Pdf, x: number, y: number) => Pdf;

const polygon =
  (...corners: [number, number][]): Outline =>
  (pdf, x, y) =>
    pdf.polygon(...corners.map(([a, b]) => [x + a, y + b] as [number, number]));
/** A regular polygon, or a star where every second corner lies further in. */
const round = (corners: number, inner = 1): Outline =>
  polygon(
    ...Array.from({ length: corners }, (_, k): [number, number] => {
      const reach = k % 2 === 1 ? 2.1 * inner : 2.1;
      const turn = (2 * Math.PI * k) / corners - Math.PI / 2;
      return [reach * Math.cos(turn), reach * Math.sin(turn)];
    }),
  );

/** Outlines that are told apart at four points across. */
const SHAPES: Outline[] = [
  (pdf, x, y) => pdf.circle(x, y, 1.7),
  polygon([-1.6, -1.6], [1.6, -1.6], [1.6, 1.6], [-1.6, 1.6]),
  polygon([0, -2], [1.9, 1.4], [-1.9, 1.4]),
  polygon([0, -2.2], [1.8, 0], [0, 2.2], [-1.8, 0]),
  polygon([0, 2], [1.9, -1.4], [-1.9, -1.4]),
  round(10, 0.45),
  round(8, 0.35),
  round(5),
  polygon([-2.2, -1], [2.2, -1], [2.2, 1], [-2.2, 1]),
];

/** Marks a point of the n-th athlete: hollow for a left foot, filled for a right one. Shapes come again after the ninth. */
export function drawMarker(pdf: Pdf, athlete: number, x: number, y: number, side: string, colour: string): void {
  const outline = SHAPES[athlete % SHAPES.length](pdf, x, y);
  if (side === 'right') outline.fillColor(colour).fill();
  else outline.lineWidth(0.6).strokeColor(colour).stroke();
}
