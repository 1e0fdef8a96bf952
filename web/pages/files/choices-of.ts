import type { Fault } from '../../../shared/fault.ts';

export interface LayoutChoice {
  label: string;
  /** Layout correction as JSON. */
  correction: string;
}

/** The ways to read an ambiguous file that its fault offers: `label: {json} | label: {json}`; empty where it offers none. */
export function choicesOf(fault: Fault): LayoutChoice[] {
  if (fault.code !== 'LAYOUT_AMBIGUOUS') return [];
  const text = String(fault.where.choices ?? '');
  return text
    .split(/ \| (?=[^"]*: \{)/)
    .map((part) => {
      const at = part.indexOf(': {');
      return { label: part.slice(0, at), correction: part.slice(at + 2) };
    })
    .filter((choice) => choice.label !== '' && isJson(choice.correction));
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
