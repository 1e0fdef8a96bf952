import { phrasesOf } from '../../app/language.ts';
import { liveWords } from '../../../shared/messages/en/view/live.ts';
import 'uplot/dist/uPlot.min.css';
import { useEffect, useRef } from 'preact/hooks';
import uPlot from 'uplot';
import { SignalRing, STRIP_S } from './signal-ring.ts';

const t = phrasesOf('live', liveWords);

const HEIGHT = 84;
const DRAW_MS = 100;
/** Standing still reads 9.8 m/s2; walking stays below this, running goes far above. */
const LEAST_TOP_MPS2 = 40;

interface SignalStripProps {
  name: string;
  ring: () => SignalRing | undefined;
}

/** The last seconds of the acceleration, drawn as it comes. */
export function SignalStrip({ name, ring }: SignalStripProps) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = place.current!;
    const ink = getComputedStyle(element).color;
    const empty = SignalRing.times.map(() => null);
    const plot = new uPlot(
      {
        width: element.clientWidth,
        height: HEIGHT,
        cursor: { show: false },
        legend: { show: false },
        scales: {
          x: { time: false, range: [-STRIP_S, 0] },
          y: { range: (_plot, _min, max) => [0, Math.max(LEAST_TOP_MPS2, max ?? 0)] },
        },
        axes: [{ show: false }, { show: false }],
        series: [{}, { stroke: ink, width: 1 }, { stroke: ink, width: 1 }],
        bands: [{ series: [2, 1], fill: ink }],
      },
      [SignalRing.times, empty, empty],
      element,
    );
    const observer = new ResizeObserver(() => plot.setSize({ width: element.clientWidth, height: HEIGHT }));
    observer.observe(element);
    const timer = setInterval(() => {
      const now = ring();
      if (now) plot.setData([SignalRing.times, now.low, now.high]);
    }, DRAW_MS);
    return () => {
      clearInterval(timer);
      observer.disconnect();
      plot.destroy();
    };
  }, [ring]);
  return (
    <div
      class="signal-strip"
      ref={place}
      role="img"
      aria-label={t('signal_of_last_seconds', { name, strip_s: STRIP_S })}
    />
  );
}
