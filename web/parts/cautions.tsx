import { commonWords } from '../../shared/messages/en/view/common.ts';
import { phrasesOf } from '../app/language.ts';

const common = phrasesOf('common', commonWords);

/** The cautions that stand wherever advice is shown. */
export function Cautions() {
  return (
    <aside class="cautions" aria-label={common('cautions')}>
      <h2>{common('cautions')}</h2>
      <p>{common('caution_measures')}</p>
      <p>
        <strong>{common('caution_pain')}</strong> {common('caution_minors')}
      </p>
    </aside>
  );
}
