/** Languages that the sentences of shared/messages exist in. The first is the one everything falls back to. */
export const LANGUAGES = ['en', 'de'] as const;
export type Language = (typeof LANGUAGES)[number];

/** Cookie by which the view tells the server what was chosen in its settings. */
export const LANGUAGE_COOKIE = 'cinderlane_language';

/**
 * The language to answer in.
 * @param wanted language tags in order of preference, such as `de-AT`; those of an `Accept-Language` header in its order
 * @returns the first one there is; else English
 */
export function chooseLanguage(wanted: readonly string[]): Language {
  for (const tag of wanted) {
    const known = LANGUAGES.find((language) => language === tag.trim().toLowerCase().split(/[-_]/)[0]);
    if (known) return known;
  }
  return LANGUAGES[0];
}

/** Tags of an `Accept-Language` header, best first (RFC 9110, section 12.5.4): `de-AT, en;q=0.7`. */
export function acceptedLanguages(header: string | undefined): string[] {
  return (header ?? '')
    .split(',')
    .map((part) => {
      const [tag, ...rest] = part.trim().split(';');
      const weight = rest.map((word) => /^\s*q=([0-9.]+)\s*$/.exec(word)?.[1]).find((word) => word !== undefined);
      return { tag, weight: weight === undefined ? 1 : Number(weight) };
    })
    .filter(({ tag, weight }) => tag !== '' && tag !== '*' && weight > 0)
    .sort((a, b) => b.weight - a.weight)
    .map(({ tag }) => tag);
}
