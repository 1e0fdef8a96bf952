import { LANGUAGES } from '../../../shared/messages/languages.ts';
import { chosenLanguage, LANGUAGE_NAMES } from '../../app/language.ts';
import { LENGTH_UNITS, LOOKS, MASS_UNITS, preferences } from '../../app/preferences.ts';
import { Cautions } from '../../parts/cautions.tsx';
import { ReadingHelp } from './reading-help.tsx';
import { Choice } from '../../parts/choice.tsx';

const LENGTH_NAMES = { m: 'metres', yd: 'yards', ft: 'feet' };
const LOOK_NAMES = { device: 'as this device is set', light: 'light (sunlight)', dark: 'dark' };
const MASS_NAMES = { kg: 'kilograms', lb: 'pounds' };

/** Units of this device, and the words the pages use. */
export default function SettingsPage() {
  const { length, mass, look } = preferences.value;
  return (
    <>
      <h1>Units and help</h1>
      <section>
        <h2>Units on this device</h2>
        <Choice
          legend="Lengths and distances"
          value={length}
          options={LENGTH_UNITS.map((value) => ({ value, label: LENGTH_NAMES[value] }))}
          onChange={(value) => (preferences.value = { ...preferences.value, length: value })}
        />
        <Choice
          legend="Mass"
          value={mass}
          options={MASS_UNITS.map((value) => ({ value, label: MASS_NAMES[value] }))}
          onChange={(value) => (preferences.value = { ...preferences.value, mass: value })}
        />
      </section>
      <section>
        <h2>Light and dark</h2>
        <Choice
          legend="Colours on this device"
          value={look}
          options={LOOKS.map((value) => ({ value, label: LOOK_NAMES[value] }))}
          onChange={(value) => (preferences.value = { ...preferences.value, look: value })}
        />
        <p class="small quiet">Paper is always printed in the light colours.</p>
      </section>
      <section>
        <h2>Language · Sprache</h2>
        <Choice
          legend="Language of this device · Sprache dieses Geräts"
          value={chosenLanguage.value ?? 'browser'}
          options={[
            { value: 'browser', label: 'as the browser · wie der Browser' },
            ...LANGUAGES.map((value) => ({ value, label: LANGUAGE_NAMES[value] })),
          ]}
          onChange={(value) => (chosenLanguage.value = value === 'browser' ? null : value)}
        />
        <p class="small quiet">
          German covers the field screen, the page of a repetition, and everything that goes wrong; other pages are
          English.
        </p>
      </section>
      <ReadingHelp />
      <p>
        For programs: every page's numbers come from <a href="/api/docs">the documented API</a>.
      </p>
      <Cautions />
    </>
  );
}
