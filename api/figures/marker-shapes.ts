/** Corners about the middle, at four points across; null for a circle. */
export type MarkerShape = [number, number][] | null;

/** A regular polygon, or a star where every second corner lies further in. */
const round = (corners: number, inner = 1): MarkerShape =>
  Array.from({ length: corners }, (_, k): [number, number] => {
    const reach = k % 2 === 1 ? 2.1 * inner : 2.1;
    const turn = (2 * Math.PI * k) / corners - Math.PI / 2;
    return [reach * Math.cos(turn), reach * Math.sin(turn)];
  });

const square: MarkerShape = [
  [-1.6, -1.6],
  [1.6, -1.6],
  [1.6, 1.6],
  [-1.6, 1.6],
];

/** Outlines that are told apart at that size; they come again after the ninth. */
const SHAPES: MarkerShape[] = [
  null,
  square,
  [
    [0, -2],
    [1.9, 1.4],
    [-1.9, 1.4],
  ],
  [
    [0, -2.2],
    [1.8, 0],
    [0, 2.2],
    [-1.8, 0],
  ],
  [
    [0, 2],
    [1.9, -1.4],
    [-1.9, -1.4],
  ],
  round(10, 0.45),
  round(8, 0.35),
  round(5),
  [
    [-2.2, -1],
    [2.2, -1],
    [2.2, 1],
    [-2.2, 1],
  ],
];

export const CIRCLE_RADIUS = 1.7;

export function markerShape(number: number): MarkerShape {
  return SHAPES[number % SHAPES.length];
}
