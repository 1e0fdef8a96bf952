import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';

const t = phrasesOf('field', fieldWords);

/** How to read the field screen. */
export function FieldHelp() {
  return (
    <details class="more no-print">
      <summary>{t('help')}</summary>
      <ul>
        <li>{t('help_who')}</li>
        <li>{t('help_line')}</li>
        <li>
          <strong>{t('help_beyond_term')}</strong> {t('help_beyond')}
        </li>
        <li>{t('help_provisional')}</li>
        <li>{t('help_network')}</li>
      </ul>
    </details>
  );
}
