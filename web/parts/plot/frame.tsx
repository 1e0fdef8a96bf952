import { phrasesOf } from '../../app/language.ts';
import { commonWords } from '../../../shared/messages/en/view/common.ts';
import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { formatNumber } from '../../app/format.ts';
import { linearScale, type Scale, tickDecimals } from './scale.ts';
import { niceTicks } from '../../../shared/nice-ticks.ts';

const common = phrasesOf('common', commonWords);

export interface Axis {
  min: number;
  max: number;
  /** Words and unit, printed beside the axis. */
  label: string;
  /** Tick values; found when left out. */
  ticks?: number[];
  format?: (value: number) => string;
}

export interface PlotArea {
  x: Scale;
  y: Scale;
  left: number;
  right: number;
  top: number;
  bottom: number;
}

interface PlotFrameProps {
  /** Said to those who cannot see the plot; the numbers stand in the table beside it. */
  description: string;
  x: Axis;
  y: Axis;
  height?: number;
  children: (area: PlotArea) => ComponentChildren;
  /** Drawn plots that can be explored get their keyboard and pointer handling from here. */
  explore?: Explore;
}

export interface Explore {
  /** Number of stops, in the order of the x axis. */
  count: number;
  /** Index of the stop under the cursor; null for none. */
  index: number | null;
  /** x value of every stop. */
  xs: number[];
  /** Said on arrival at a stop. */
  text: (index: number) => string;
  onMove: (index: number) => void;
}

const MARGIN = { left: 60, right: 14, top: 12, bottom: 46 };

/** Axes and grid of a drawn plot, as wide as its place; text keeps its size at every width. */
export function PlotFrame({ description, x, y, height = 300, children, explore }: PlotFrameProps) {
  const place = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const element = place.current!;
    setWidth(element.clientWidth);
    const observer = new ResizeObserver(() => setWidth(element.clientWidth));
    observer.observe(element);
    return () => observer.disconnect();
  }, []);

  const area: PlotArea = {
    left: MARGIN.left,
    right: Math.max(MARGIN.left + 10, width - MARGIN.right),
    top: MARGIN.top,
    bottom: height - MARGIN.bottom,
    x: linearScale(x.min, x.max, MARGIN.left, Math.max(MARGIN.left + 10, width - MARGIN.right)),
    y: linearScale(y.min, y.max, height - MARGIN.bottom, MARGIN.top),
  };
  return (
    <div class="plot" ref={place} {...(explore ? exploring(explore, area) : {})}>
      {width > 0 && (
        <svg
          width={width}
          height={height}
          viewBox={`0 0 ${width} ${height}`}
          role={explore ? 'presentation' : 'img'}
          aria-label={explore ? undefined : description}
        >
          <YAxis axis={y} area={area} />
          <XAxis axis={x} area={area} />
          {children(area)}
        </svg>
      )}
    </div>
  );
}

/** A plot that can be explored is a slider over its stops: arrow keys, Home and End; a tap picks the nearest stop. */
function exploring({ count, index, xs, text, onMove }: Explore, area: PlotArea) {
  const now = index ?? 0;
  return {
    tabIndex: 0,
    role: 'slider' as const,
    'aria-label': common('contact_under_the_cursor'),
    'aria-valuemin': 1,
    'aria-valuemax': Math.max(1, count),
    'aria-valuenow': now + 1,
    'aria-valuetext': count > 0 ? text(now) : common('nothing_measured'),
    onKeyDown: (event: KeyboardEvent) => {
      const next = keyTarget(event.key, index, count);
      if (next === null) return;
      event.preventDefault();
      onMove(next);
    },
    onPointerDown: (event: PointerEvent) => {
      if (count === 0) return;
      const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
      const at = area.x.invert(event.clientX - box.left);
      let nearest = 0;
      for (let i = 1; i < count; i += 1) if (Math.abs(xs[i] - at) < Math.abs(xs[nearest] - at)) nearest = i;
      onMove(nearest);
    },
  };
}

function keyTarget(key: string, index: number | null, count: number): number | null {
  if (count === 0) return null;
  if (key === 'Home') return 0;
  if (key === 'End') return count - 1;
  if (key === 'ArrowRight' || key === 'ArrowUp') return index === null ? 0 : Math.min(count - 1, index + 1);
  if (key === 'ArrowLeft' || key === 'ArrowDown') return index === null ? count - 1 : Math.max(0, index - 1);
  return null;
}

function YAxis({ axis, area }: { axis: Axis; area: PlotArea }) {
  const ticks = axis.ticks ?? niceTicks(axis.min, axis.max, 5);
  const format = axis.format ?? ((value: number) => formatNumber(value, tickDecimals(ticks)));
  return (
    <g>
      {ticks.map((tick) => (
        <g key={tick}>
          <line class="grid" x1={area.left} x2={area.right} y1={area.y(tick)} y2={area.y(tick)} />
          <text class="tick" x={area.left - 8} y={area.y(tick)} text-anchor="end" dominant-baseline="middle">
            {format(tick)}
          </text>
        </g>
      ))}
      <text
        class="axis-label"
        transform={`translate(13 ${(area.top + area.bottom) / 2}) rotate(-90)`}
        text-anchor="middle"
      >
        {axis.label}
      </text>
    </g>
  );
}

const LEAST_TICK_PX = 30;

/** Every second, fifth, tenth ... of given ticks, so that their words do not touch. */
function thinTicks(ticks: number[], most: number): number[] {
  const every = [1, 2, 5, 10, 20, 50, 100].find((n) => ticks.length / n <= most) ?? 200;
  return every === 1 ? ticks : ticks.filter((_, index) => (index + 1) % every === 0);
}

function XAxis({ axis, area }: { axis: Axis; area: PlotArea }) {
  const width = area.right - area.left;
  const ticks = axis.ticks
    ? thinTicks(axis.ticks, width / LEAST_TICK_PX)
    : niceTicks(axis.min, axis.max, Math.max(2, Math.floor(width / 56)));
  const format = axis.format ?? ((value: number) => formatNumber(value, tickDecimals(ticks)));
  return (
    <g>
      <line class="axis" x1={area.left} x2={area.right} y1={area.bottom} y2={area.bottom} />
      {ticks.map((tick) => (
        <g key={tick}>
          <line class="axis" x1={area.x(tick)} x2={area.x(tick)} y1={area.bottom} y2={area.bottom + 5} />
          <text class="tick" x={area.x(tick)} y={area.bottom + 19} text-anchor="middle">
            {format(tick)}
          </text>
        </g>
      ))}
      <text class="axis-label" x={(area.left + area.right) / 2} y={area.bottom + 39} text-anchor="middle">
        {axis.label}
      </text>
    </g>
  );
}
