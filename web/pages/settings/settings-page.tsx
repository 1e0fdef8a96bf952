import { settingsWords } from '../../../shared/messages/en/view/settings.ts';
import { LANGUAGES } from '../../../shared/messages/languages.ts';
import { chosenLanguage, LANGUAGE_NAMES, phrasesOf } from '../../app/language.ts';
import { LENGTH_UNITS, LOOKS, MASS_UNITS, preferences } from '../../app/preferences.ts';
import { Cautions } from '../../parts/cautions.tsx';
import { ReadingHelp } from './reading-help.tsx';
import { Choice } from '../../parts/choice.tsx';

const t = phrasesOf('settings', settingsWords);

const lengthNames = () => ({ m: t('metres'), yd: t('yards'), ft: t('feet') });
const lookNames = () => ({ device: t('as_this_device_is_set'), light: t('light_sunlight'), dark: t('dark') });
const massNames = () => ({ kg: t('kilograms'), lb: t('pounds') });

/** Units of this device, and the words the pages use. */
export default function SettingsPage() {
  const { length, mass, look } = preferences.value;
  return (
    <>
      <h1>{t('units_and_help')}</h1>
      <section>
        <h2>{t('units_on_this_device')}</h2>
        <Choice
          legend={t('lengths_and_distances')}
          value={length}
          options={LENGTH_UNITS.map((value) => ({ value, label: lengthNames()[value] }))}
          onChange={(value) => (preferences.value = { ...preferences.value, length: value })}
        />
        <Choice
          legend={t('mass')}
          value={mass}
          options={MASS_UNITS.map((value) => ({ value, label: massNames()[value] }))}
          onChange={(value) => (preferences.value = { ...preferences.value, mass: value })}
        />
      </section>
      <section>
        <h2>{t('light_and_dark')}</h2>
        <Choice
          legend={t('colours_on_this_device')}
          value={look}
          options={LOOKS.map((value) => ({ value, label: lookNames()[value] }))}
          onChange={(value) => (preferences.value = { ...preferences.value, look: value })}
        />
        <p class="small quiet">{t('paper_is_always_printed_in')}</p>
      </section>
      <section>
        <h2>{t('language')}</h2>
        <Choice
          legend={t('language_of_device')}
          value={chosenLanguage.value ?? 'browser'}
          options={[
            { value: 'browser', label: t('as_the_browser') },
            ...LANGUAGES.map((value) => ({ value, label: LANGUAGE_NAMES[value] })),
          ]}
          onChange={(value) => (chosenLanguage.value = value === 'browser' ? null : value)}
        />
      </section>
      <ReadingHelp />
      <p>
        {t('for_programs_every_pages_numbers')}
        <a href="/api/docs">{t('the_documented_api')}</a>.
      </p>
      <Cautions />
    </>
  );
}
