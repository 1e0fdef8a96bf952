import { phrasesOf } from '../../app/language.ts';
import { settingsWords } from '../../../shared/messages/en/view/settings.ts';
import { CONTACT_QUANTITIES } from '../../../shared/fields.ts';
import { Glossary } from '../../parts/glossary.tsx';
import { Legend, LegendBand, LegendBeyond, LegendEarlier, LegendSide } from '../../parts/plot/legend.tsx';

const t = phrasesOf('settings', settingsWords);

/** How the plots are read, and what each quantity means. */
export function ReadingHelp() {
  return (
    <>
      <section aria-labelledby="reading-head">
        <h2 id="reading-head">{t('reading_the_plots')}</h2>
        <div class="sheet">
          <Legend>
            <LegendSide side="left" />
            <LegendSide side="right" />
            <LegendBand text={t('normal_variation')} />
            <LegendEarlier text={t('earlier_today')} />
            <LegendBeyond />
          </Legend>
          <p>{t('the_whisker_on_a_point')}</p>
          <p>{t('the_band_is_what_is')}</p>
          <p>{t('a_dash_or_words_in')}</p>
        </div>
      </section>
      <section aria-labelledby="words-head">
        <h2 id="words-head">{t('words')}</h2>
        <div class="sheet">
          <Glossary quantities={CONTACT_QUANTITIES} />
        </div>
      </section>
    </>
  );
}
