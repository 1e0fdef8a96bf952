import type { RepetitionResult } from '../../../shared/analysis.ts';
import type { ProfileBaseline } from '../../../shared/schemas/repetition.ts';
import { sayHeadline } from './say-headline.ts';

interface HeadlineProps {
  result: RepetitionResult;
  baseline: ProfileBaseline | null;
}

/** The repetition in one plain sentence. */
export function Headline({ result, baseline }: HeadlineProps) {
  const said = sayHeadline(result, baseline);
  return <p class={`headline${said.beyond ? ' is-beyond' : ''}`}>{said.text}</p>;
}
