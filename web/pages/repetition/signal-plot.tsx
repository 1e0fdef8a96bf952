import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import type { Contact } from '../../../shared/analysis.ts';
import type { SignalWindow } from '../../../shared/signal-wire.ts';
import type { Side } from '../../../shared/words.ts';
import { theme } from '../../app/theme.ts';
import { signalTicks } from '../../parts/plot/signal-ticks.ts';
import { drawContacts } from './draw-contacts.ts';
import { clippedStretches, drawFaults, type Stretch } from './draw-faults.ts';
import { plotColumns, SIGNAL_VIEW, type SignalViewName } from './signal-channels.ts';
import type { SignalRange } from './signal-range.ts';

interface SignalPlotProps {
  side: Side;
  signal: SignalWindow;
  view: SignalViewName;
  range: SignalRange;
  contacts: Contact[];
  /** Where samples are missing, on the common clock. */
  gaps: Stretch[];
  selected: number | null;
  onRange: (range: SignalRange) => void;
}

const HEIGHT = 222;
const DASHES: (number[] | undefined)[] = [undefined, [7, 4], [2, 3]];

/** One sensor's signal with its contacts marked. The plot is made once a view; data and window change in place. */
export function SignalPlot(props: SignalPlotProps) {
  const { side, signal, view, range } = props;
  const place = useRef<HTMLDivElement>(null);
  const plot = useRef<uPlot | null>(null);
  const latest = useRef(props);
  latest.current = props;

  useLayoutEffect(() => {
    const element = place.current!;
    const style = getComputedStyle(element);
    const colour = (name: string) => style.getPropertyValue(`--${name}`).trim();
    const ink = colour('ink');
    const font = `13px ${style.fontFamily}`;
    const lines = side === 'unknown' ? [ink, ink, ink] : [colour(side), ink, colour('rule')];
    const axis = {
      stroke: ink,
      font,
      grid: { stroke: colour('rule-soft'), width: 1 },
      ticks: { stroke: ink, width: 1, size: 5 },
    };
    const made = new uPlot(
      {
        width: element.clientWidth,
        height: HEIGHT,
        legend: { show: false },
        cursor: { y: false, drag: { x: true, y: false, setScale: false } },
        scales: { x: { time: false } },
        axes: [
          {
            ...axis,
            ...signalTicks(80, (u) => u.width),
            size: 30,
            label: 's',
            labelSize: 16,
            labelFont: font,
            labelGap: -2,
          },
          {
            ...axis,
            ...signalTicks(48, (u) => u.height),
            size: 64,
            label: SIGNAL_VIEW[view].unit,
            labelSize: 22,
            labelFont: font,
          },
        ],
        series: [
          {},
          ...SIGNAL_VIEW[view].columns.map(({ label }, index) => ({
            label,
            stroke: lines[index],
            width: index === 0 ? 1.75 : 1.5,
            dash: SIGNAL_VIEW[view].columns.length === 1 && side === 'right' ? DASHES[1] : DASHES[index],
            points: { show: false },
          })),
        ],
        hooks: {
          drawClear: [(u) => drawContacts(u, latest.current.contacts, latest.current.selected, colour)],
          draw: [
            (u) => {
              const { signal: drawn, gaps } = latest.current;
              drawFaults(u, gaps, clippedStretches(drawn, SIGNAL_VIEW[view].kind), colour);
            },
          ],
          setSelect: [
            (u) => {
              if (u.select.width < 4) return;
              latest.current.onRange({
                from_s: u.posToVal(u.select.left, 'x'),
                to_s: u.posToVal(u.select.left + u.select.width, 'x'),
              });
              u.setSelect({ left: 0, top: 0, width: 0, height: 0 }, false);
            },
          ],
        },
      },
      plotColumns(latest.current.signal, view) as uPlot.AlignedData,
      element,
    );
    plot.current = made;
    const { from_s, to_s } = latest.current.range;
    made.setScale('x', { min: from_s, max: to_s });
    const observer = new ResizeObserver(() => made.setSize({ width: element.clientWidth, height: HEIGHT }));
    observer.observe(element);
    return () => {
      observer.disconnect();
      made.destroy();
      plot.current = null;
    };
  }, [side, view, theme.value]);

  useEffect(() => {
    plot.current?.setData(plotColumns(signal, view) as uPlot.AlignedData, false);
    plot.current?.setScale('x', { min: latest.current.range.from_s, max: latest.current.range.to_s });
  }, [signal, view]);

  useEffect(() => {
    plot.current?.setScale('x', { min: range.from_s, max: range.to_s });
  }, [range.from_s, range.to_s]);

  useEffect(() => {
    plot.current?.redraw(false);
  }, [props.selected, props.contacts, props.gaps]);

  return <div class="signal-plot" ref={place} />;
}
