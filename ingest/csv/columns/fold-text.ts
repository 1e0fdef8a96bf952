/**
 * Text as words are compared by: full-width letters as plain ones, accents taken off, lower case. Marks that make another letter in
 * Japanese and Korean stay.
 */
export function foldText(text: string): string {
  return foldLetters(text).toLowerCase();
}

/** The same with capitals kept, which part words written together. */
export function foldLetters(text: string): string {
  return text
    .normalize('NFKC')
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .normalize('NFC')
    .replace(/ß/g, 'ss')
    .replace(/đ/g, 'd')
    .replace(/Đ/g, 'D')
    .replace(/ł/g, 'l')
    .replace(/Ł/g, 'L')
    .replace(/ø/g, 'o')
    .replace(/Ø/g, 'O')
    .replace(/æ/g, 'ae')
    .replace(/ı/g, 'i');
}

/** Words of a folded text: parted at signs, at capitals (`accX`) and where one script meets another (`加速度X`). */
export function foldedWords(text: string): string[] {
  return foldLetters(text)
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .replace(/(\p{Lu})(\p{Lu}\p{Ll})/gu, '$1 $2')
    .replace(/(\p{Lo})(?=[A-Za-z])/gu, '$1 ')
    .replace(/([A-Za-z])(?=\p{Lo})/gu, '$1 ')
    .toLowerCase()
    .split(/[^\p{L}\p{M}\p{N}#/^*²°µ]+/u)
    .filter((word) => word !== '');
}
