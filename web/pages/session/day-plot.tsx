import { phrasesOf } from '../../app/language.ts';
import { sessionWords } from '../../../shared/messages/en/view/session.ts';
import type { RepetitionLine } from '../../../shared/schemas/repetition.ts';
import { PlotFrame } from '../../parts/plot/frame.tsx';
import { type Point, SideSeries } from '../../parts/plot/marks.tsx';
import { rangeOf } from '../../parts/plot/scale.ts';

const t = phrasesOf('session', sessionWords);

/** Mean contact time at speed of every repetition of one athlete's day, left and right. */
export function DayPlot({ repetitions }: { repetitions: RepetitionLine[] }) {
  const shown = repetitions.map((repetition, index) => ({ ...repetition.figures, x: index + 1 }));
  const side = (key: 'contact_time_left_ms' | 'contact_time_right_ms'): Point[] =>
    shown.map((figures) => ({ x: figures.x, y: figures[key] ?? null }));
  const left = side('contact_time_left_ms');
  const right = side('contact_time_right_ms');
  if ([...left, ...right].every((point) => point.y === null)) return null;
  const efforts = new Set(repetitions.map((repetition) => repetition.effort_percent));
  const built = efforts.size > 1 && !efforts.has(null);
  const [min, max] = rangeOf(
    [...left, ...right].map((point) => point.y),
    30,
  );
  return (
    <PlotFrame
      description={t('mean_contact_time_at_speed')}
      height={190}
      x={{
        min: 0.5,
        max: repetitions.length + 0.5,
        label: built ? t('effort') : t('repetition_3'),
        ticks: shown.map((figures) => figures.x),
        format: (x) => String(repetitions[x - 1]?.[built ? 'effort_percent' : 'order_number'] ?? '–'),
      }}
      y={{ min, max, label: t('contact_ms') }}
    >
      {(area) => (
        <>
          <SideSeries side="left" points={left} area={area} />
          <SideSeries side="right" points={right} area={area} />
        </>
      )}
    </PlotFrame>
  );
}
