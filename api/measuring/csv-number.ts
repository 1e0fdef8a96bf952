import { contactColumn } from '../../shared/fields.ts';

/** Decimals a file carries beyond those on screen. */
const EXTRA_DECIMALS = 3;

/** Decimals of a field in files; a `_u` or `_sd` column carries those of its field. */
export function fileDecimals(field: string): number {
  const definition = contactColumn(field.replace(/_sd$/, ''));
  return definition?.decimals === undefined ? 4 : definition.decimals + EXTRA_DECIMALS;
}

/** A number as files carry it: rounded, without trailing zeros; empty when not measurable. */
export function csvNumber(value: number | null | undefined, decimals: number): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return '';
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? withoutLastZeros(text) : text;
  return short === '-0' ? '0' : short;
}

function withoutLastZeros(text: string): string {
  let end = text.length;
  while (text[end - 1] === '0') end -= 1;
  return text.slice(0, text[end - 1] === '.' ? end - 1 : end);
}
