import { commonWords } from '../../shared/messages/en/view/common.ts';
import { MOUNTINGS, type Mounting } from '../../shared/words.ts';
import { phrasesOf } from './language.ts';

const common = phrasesOf('common', commonWords);

/** Places to wear a sensor at, to choose from. */
export const mountingChoices = (): { value: Mounting; label: string }[] =>
  MOUNTINGS.map((value) => ({ value, label: common(`place_${value}`) }));

/** `sensor on the shoe`. */
export const sensorOn = (mounting: Mounting): string => common(`sensor_on_${mounting}`);
