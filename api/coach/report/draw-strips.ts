import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { Judgement } from '../../../shared/schemas/coach/judgement.ts';
import type { Picture, Shape } from '../../../shared/schemas/coach/report.ts';
import { labelOf, type LengthUnit, withUnit } from '../words/quantity-words.ts';
import { PICTURE_HEIGHT, PICTURE_WIDTH } from './draw-plot.ts';

const LEFT = 150;
const RIGHT = PICTURE_WIDTH - 70;

/** One line a quantity: normal variation as a bar, earlier today as rings, this one as a diamond. */
export function drawStrips(
  title: string,
  judgements: readonly Judgement[],
  length: LengthUnit,
  words: JudgementWords,
): Picture {
  const step = PICTURE_HEIGHT / Math.max(1, judgements.length);
  return {
    title,
    description: judgements.map((judgement) => judgement.sentence).join(' '),
    width: PICTURE_WIDTH,
    height: PICTURE_HEIGHT,
    shapes: judgements.flatMap((judgement, index) => strip(judgement, step * (index + 0.5), length, words)),
  };
}

function strip(
  { quantity, value, normal, earlier_today, beyond }: Judgement,
  y: number,
  length: LengthUnit,
  words: JudgementWords,
): Shape[] {
  const all = [value, ...earlier_today, ...(normal ? [normal.low, normal.high] : [])];
  const low = Math.min(...all);
  const pad = (Math.max(...all) - low) * 0.1 || 1;
  const span = Math.max(...all) - low + 2 * pad;
  const x = (number: number) => LEFT + ((number - low + pad) / span) * (RIGHT - LEFT);
  const shapes: Shape[] = [
    {
      kind: 'text',
      x: 0,
      y: y + 3,
      text: labelOf(quantity, words),
      size: 9,
      bold: true,
      anchor: 'start',
      tone: 'ink',
    },
    {
      kind: 'text',
      x: PICTURE_WIDTH,
      y: y + 3,
      text: withUnit(quantity, value, length, 0, words),
      size: 9,
      bold: true,
      anchor: 'end',
      tone: beyond ? 'beyond' : 'ink',
    },
    {
      kind: 'line',
      points: [
        [LEFT, y],
        [RIGHT, y],
      ],
      tone: 'rule',
      width: 0.6,
      dashed: false,
    },
  ];
  if (normal) {
    const [a, b] = [x(normal.low), x(normal.high)];
    shapes.push({
      kind: 'area',
      points: [
        [a, y - 7],
        [b, y - 7],
        [b, y + 7],
        [a, y + 7],
      ],
      tone: 'band',
    });
  }
  for (const earlier of earlier_today)
    shapes.push({ kind: 'mark', form: 'ring', x: x(earlier), y, size: 3, tone: 'soft' });
  shapes.push({ kind: 'mark', form: 'diamond', x: x(value), y, size: 5.5, tone: beyond ? 'beyond' : 'ink' });
  return shapes;
}
