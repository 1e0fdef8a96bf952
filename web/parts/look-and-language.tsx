import { settingsWords } from '../../shared/messages/en/view/settings.ts';
import { LANGUAGES } from '../../shared/messages/languages.ts';
import { chosenLanguage, LANGUAGE_NAMES, phrasesOf } from '../app/language.ts';
import { LOOKS, preferences } from '../app/preferences.ts';
import { Choice } from './choice.tsx';

const t = phrasesOf('settings', settingsWords);

const lookNames = () => ({ device: t('as_this_device_is_set'), light: t('light_sunlight'), dark: t('dark') });

/** How pages look on this device, and what they speak. */
export function LookAndLanguage() {
  const { look } = preferences.value;
  return (
    <>
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
    </>
  );
}
