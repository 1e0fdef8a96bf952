import { settingsWords } from '../../../shared/messages/en/view/settings.ts';
import { phrasesOf } from '../../app/language.ts';
import { LENGTH_UNITS, MASS_UNITS, preferences } from '../../app/preferences.ts';
import { Cautions } from '../../parts/cautions.tsx';
import { LookAndLanguage } from '../../parts/look-and-language.tsx';
import { NormsChoice } from './norms-choice.tsx';
import { ReadingHelp } from './reading-help.tsx';
import { Choice } from '../../parts/choice.tsx';

const t = phrasesOf('settings', settingsWords);

const lengthNames = () => ({ m: t('metres'), yd: t('yards'), ft: t('feet') });
const massNames = () => ({ kg: t('kilograms'), lb: t('pounds') });

/** Units of this device, and the words the pages use. */
export default function SettingsPage() {
  const { length, mass } = preferences.value;
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
      <LookAndLanguage />
      <NormsChoice />
      <ReadingHelp />
      <p>
        {t('for_programs_every_pages_numbers')}
        <a href="/api/docs">{t('the_documented_api')}</a>.
      </p>
      <Cautions />
    </>
  );
}
