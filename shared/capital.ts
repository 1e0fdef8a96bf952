/** The text with a capital first letter, as a sentence or a heading begins; empty text stays empty. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
