/** Every setting of the signal processing has a reason: a comment of its own right above it. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const ROOM = fileURLToPath(new URL('../../../dsp/settings/', import.meta.url));

/** Names of settings without a comment that ends on the line above. A group's own lines, and tables brought in whole, are none. */
function withoutReason(text: string): string[] {
  const lines = text.split('\n');
  return lines.flatMap((line, at) => {
    const setting = /^ {2,}(\w+): (.*)$/.exec(line);
    if (!setting || setting[2].trimEnd().endsWith('{') || /^[A-Z_]+,$/.test(setting[2])) return [];
    return lines[at - 1].trimEnd().endsWith('*/') ? [] : [`line ${at + 1}: ${setting[1]}`];
  });
}

test.each(readdirSync(ROOM).filter((name) => name.endsWith('.ts')))('every setting of %s has a reason', (name) => {
  const text = readFileSync(`${ROOM}${name}`, 'utf8');
  expect(withoutReason(text)).toEqual([]);
});

test('a setting without one would be found', () => {
  const text = 'const S = {\n  group: {\n    /** Because. */\n    a: 1,\n    b: 2,\n  },\n  whole: OTHER_SETTINGS,\n};';
  expect(withoutReason(text)).toEqual(['line 5: b']);
});
