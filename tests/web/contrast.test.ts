import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { PAPER_COLOURS } from '../../api/pdf/pdf-document.ts';

const TOKENS = readFileSync(new URL('../../web/style/tokens.css', import.meta.url), 'utf8');
const [LIGHT_RULES, DARK_RULES] = TOKENS.split('@media screen');

function coloursOf(rules: string): Record<string, string> {
  return Object.fromEntries(
    [...rules.matchAll(/--([a-z-]+): (#[0-9a-f]{6});/g)].map(([, name, value]) => [name, value]),
  );
}
const LIGHT = coloursOf(LIGHT_RULES);
const THEMES = { light: LIGHT, dark: { ...LIGHT, ...coloursOf(DARK_RULES) } };

/** Relative luminance and contrast ratio as WCAG 2.2 defines them (https://www.w3.org/TR/WCAG22/#dfn-relative-luminance). */
function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5]
    .map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: string, b: string): number {
  const [low, high] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

test('the contrast of black on white and of two equal colours is what WCAG 2.2 says', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
  expect(contrast('#777777', '#777777')).toBe(1);
});

describe.each(Object.entries(THEMES))('the %s theme', (_, colours) => {
  // WCAG 2.2, success criterion 1.4.6 (AAA): 7 to 1 for text of any size.
  test.each(['paper', 'sheet', 'wash'])('text on %s has a contrast of 7 to 1', (ground) => {
    for (const text of ['ink', 'ink-soft'])
      expect(contrast(colours[text], colours[ground]), text).toBeGreaterThanOrEqual(7);
  });
  test.each(['paper', 'sheet', 'beyond-wash'])('what is beyond normal has a contrast of 7 to 1 on %s', (ground) => {
    expect(contrast(colours.beyond, colours[ground])).toBeGreaterThanOrEqual(7);
  });
  test('left and right have a contrast of 7 to 1 on paper and sheet', () => {
    for (const side of ['left', 'right']) {
      for (const ground of ['paper', 'sheet'])
        expect(contrast(colours[side], colours[ground]), side).toBeGreaterThanOrEqual(7);
    }
  });
  // WCAG 2.2, success criterion 1.4.11 (AA): 3 to 1 for what shows where a field is and for the focus ring.
  test('edges of fields and the focus ring have a contrast of 3 to 1 on paper and sheet', () => {
    for (const line of ['rule', 'focus']) {
      for (const ground of ['paper', 'sheet'])
        expect(contrast(colours[line], colours[ground]), line).toBeGreaterThanOrEqual(3);
    }
  });
});

test('reports and figures are printed in the colours of the light theme', () => {
  const token = { soft: 'ink-soft', rule: 'rule-soft', paper: 'sheet' } as Record<string, string>;
  for (const [tone, colour] of Object.entries(PAPER_COLOURS)) expect(colour, tone).toBe(LIGHT[token[tone] ?? tone]);
});
