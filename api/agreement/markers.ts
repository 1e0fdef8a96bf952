import type { Pdf } from '../pdf/pdf-document.ts';

type Draw = (pdf: Pdf, x: number, y: number) => void;

const lines =
  (...ends: [number, number, number, number][]): Draw =>
  (pdf, x, y) => {
    for (const [a, b, c, d] of ends) pdf.moveTo(x + a, y + b).lineTo(x + c, y + d);
    pdf.stroke();
  };
const polygon =
  (...corners: [number, number][]): Draw =>
  (pdf, x, y) => {
    pdf.polygon(...corners.map(([a, b]) => [x + a, y + b] as [number, number])).stroke();
  };

/** Outlines that are told apart at two points across. */
const SHAPES: Draw[] = [
  (pdf, x, y) => pdf.circle(x, y, 1.7).stroke(),
  polygon([-1.6, -1.6], [1.6, -1.6], [1.6, 1.6], [-1.6, 1.6]),
  polygon([0, -2], [1.9, 1.4], [-1.9, 1.4]),
  lines([-1.7, -1.7, 1.7, 1.7], [-1.7, 1.7, 1.7, -1.7]),
  polygon([0, -2.2], [1.8, 0], [0, 2.2], [-1.8, 0]),
  lines([-2, 0, 2, 0], [0, -2, 0, 2]),
  polygon([0, 2], [1.9, -1.4], [-1.9, -1.4]),
  lines([-2, 0, 2, 0]),
  lines([0, -2, 0, 2]),
];

/** Marks a point of the n-th athlete, in the stroke colour set before; shapes come again after the ninth. */
export function drawMarker(pdf: Pdf, athlete: number, x: number, y: number): void {
  SHAPES[athlete % SHAPES.length](pdf, x, y);
}
