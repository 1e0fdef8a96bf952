import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import type { Sourced } from '../../../../shared/schemas/coach/caution.ts';
import { Citation } from '../../../parts/citation.tsx';

const common = phrasesOf('common', commonWords);

/** Cautions with their sources; stands wherever advice stands. */
export function CautionList({ cautions }: { cautions: readonly Sourced[] }) {
  return (
    <aside class="cautions" aria-label={common('cautions')}>
      <h2>{common('cautions')}</h2>
      <ul>
        {cautions.map((caution) => (
          <li key={caution.code}>
            {caution.code === 'STOP_ON_PAIN' ? <strong>{caution.text}</strong> : caution.text}{' '}
            <span class="quiet caution-source">
              <Citation>{caution.source}</Citation>
            </span>
          </li>
        ))}
      </ul>
    </aside>
  );
}
