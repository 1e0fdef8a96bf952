import type { PhraseRoom } from '../../sentence.ts';

/** Units and help. */
export const settingsWords = {
  reading_the_plots: 'Reading the plots',
  normal_variation: 'normal variation',
  earlier_today: 'earlier today',
  the_whisker_on_a_point:
    'The whisker on a point, and the number behind ±, is where the true value lies 95 times in a hundred, as far as the measurement goes.',
  the_band_is_what_is:
    "The band is what is normal for this athlete at this effort and course: dark, where about two of three repetitions lie; light, as far as chance reaches. Only what lies outside of both is marked. It is provisional until it rests on six repetitions: until then, published variation stands in for the athlete's own.",
  a_dash_or_words_in:
    'A dash, or words in place of a number, means that the sensors could not measure it; the reason stands with it. Nothing is ever guessed to fill a gap.',
  words: 'Words',
  metres: 'metres',
  yards: 'yards',
  feet: 'feet',
  as_this_device_is_set: 'as this device is set',
  light_sunlight: 'light (sunlight)',
  dark: 'dark',
  kilograms: 'kilograms',
  pounds: 'pounds',
  units_and_help: 'Units and help',
  units_on_this_device: 'Units on this device',
  lengths_and_distances: 'Lengths and distances',
  mass: 'Mass',
  light_and_dark: 'Light and dark',
  colours_on_this_device: 'Colours on this device',
  paper_is_always_printed_in: 'Paper is always printed in the light colours.',
  for_programs_every_pages_numbers: "For programs: every page's numbers come from ",
  the_documented_api: 'the documented API',
  norms: 'Norms of the programme',
  norms_here: ({ programme, day, key }: { programme: string; day: string; key: string }) =>
    `${programme} published bands of people alike on ${day}; they are signed with key ${key}.`,
  norms_show: "Show them beside an athlete's own normal, as 'others like this'",
  norms_help:
    'Bands of ten people or more, never people; minors stand beside minors only. A difference from others is no fault and no aim.',
  language: 'Language · Sprache',
  language_of_device: 'Language of this device · Sprache dieses Geräts',
  as_the_browser: 'as the browser · wie der Browser',
} as const satisfies PhraseRoom;
