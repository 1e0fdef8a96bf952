import type { Side } from '../../../shared/words.ts';
import type { PlotArea } from './frame.tsx';

export interface Point {
  x: number;
  y: number | null;
  /** 95 % half-width of y. */
  half?: number | null;
  /** Lies beyond the athlete's normal variation. */
  beyond?: boolean;
}

/** Path through the points, broken where a value is missing. */
export function linePath(points: Point[], area: PlotArea): string {
  let path = '';
  let pen = false;
  for (const point of points) {
    if (point.y === null) {
      pen = false;
      continue;
    }
    path += `${pen ? 'L' : 'M'}${area.x(point.x).toFixed(1)} ${area.y(point.y).toFixed(1)}`;
    pen = true;
  }
  return path;
}

interface MarkerProps {
  side: Side;
  cx: number;
  cy: number;
  beyond?: boolean;
  /** Radius where points lie apart; smaller where they are many. */
  radius?: number;
}

/** Left round, right square, unknown a diamond; beyond normal variation: larger, in the accent colour, with a ring. */
export function Marker({ side, cx, cy, beyond = false, radius = 4.5 }: MarkerProps) {
  const r = beyond ? radius * 1.33 : radius;
  const name = `marker ${side}${beyond ? ' beyond' : ''}`;
  const shape =
    side === 'right' ? (
      <rect class={name} x={cx - r * 0.9} y={cy - r * 0.9} width={r * 1.8} height={r * 1.8} />
    ) : side === 'left' ? (
      <circle class={name} cx={cx} cy={cy} r={r} />
    ) : (
      <path class={name} d={`M${cx} ${cy - r}L${cx + r} ${cy}L${cx} ${cy + r}L${cx - r} ${cy}Z`} />
    );
  if (!beyond) return shape;
  return (
    <>
      <circle class="marker-ring" cx={cx} cy={cy} r={r + 4} />
      {shape}
    </>
  );
}

/** Pixels between neighbours below which marks are drawn small and thin. */
const DENSE_PX = 16;

/** Points of one side: line (left solid, right dashed), whiskers of 95 %, markers. */
export function SideSeries({ side, points, area }: { side: Side; points: Point[]; area: PlotArea }) {
  const dense = points.length > 1 && (area.right - area.left) / points.length < DENSE_PX;
  return (
    <g class={dense ? 'dense' : undefined}>
      <path class={`series ${side}`} d={linePath(points, area)} />
      {points.map(
        (point) =>
          point.y !== null &&
          point.half && (
            <path
              key={`w${point.x}`}
              class={`whisker ${side}${point.beyond ? ' beyond' : ''}`}
              d={whiskerPath(area.x(point.x), area.y(point.y - point.half), area.y(point.y + point.half))}
            />
          ),
      )}
      {points.map(
        (point) =>
          point.y !== null && (
            <Marker
              key={point.x}
              side={side}
              cx={area.x(point.x)}
              cy={area.y(point.y)}
              beyond={point.beyond}
              radius={dense ? 3 : 4.5}
            />
          ),
      )}
    </g>
  );
}

function whiskerPath(x: number, low: number, high: number): string {
  return `M${x} ${low}V${high}M${x - 3} ${low}H${x + 3}M${x - 3} ${high}H${x + 3}`;
}

export interface BandPoint {
  at: number;
  centre: number;
  low: number;
  high: number;
  /** Distance from the centre beyond which a value is flagged. */
  flag_from: number;
}

/** Normal variation: dark within one typical error of the centre, light as far as chance reaches; values outside are flagged. */
export function Band({ points, area }: { points: BandPoint[]; area: PlotArea }) {
  if (points.length === 0) return null;
  // A single point still shows as a short stretch.
  const drawn = points.length > 1 ? points : [-0.3, 0.3].map((shift) => ({ ...points[0], at: points[0].at + shift }));
  const at = (value: number) => area.x(value).toFixed(1);
  const edge = (y: (point: BandPoint) => number) =>
    drawn.map((point, index) => `${index ? 'L' : 'M'}${at(point.at)} ${area.y(y(point)).toFixed(1)}`).join('');
  const back = (y: (point: BandPoint) => number) =>
    [...drawn]
      .reverse()
      .map((point) => `L${at(point.at)} ${area.y(y(point)).toFixed(1)}`)
      .join('');
  const high = (point: BandPoint) => point.centre + point.flag_from;
  const low = (point: BandPoint) => point.centre - point.flag_from;
  return (
    <g>
      <path class="band-far" d={`${edge(high)}${back(low)}Z`} />
      <path class="band-edge" d={edge(high)} />
      <path class="band-edge" d={edge(low)} />
      <path class="band" d={`${edge((point) => point.high)}${back((point) => point.low)}Z`} />
      <path class="band-centre" d={edge((point) => point.centre)} />
    </g>
  );
}
