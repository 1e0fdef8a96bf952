import { describe, expect, test } from 'vitest';
import { isWhole, readKey, writeKey } from '../../web/pages/coach/compare/compare-keys.ts';

describe('a side of a comparison in the address', () => {
  test.each([
    ['repetitions', '3.12.40'],
    ['sessions', '3.12'],
    ['blocks', '3.2026-11-01.2026-11-21'],
  ] as const)('of %s is read and written the same', (kind, key) => {
    expect(isWhole(kind, key)).toBe(true);
    expect(writeKey(kind, readKey(kind, key))).toBe(key);
  });

  test('is not whole before everything was chosen, and keeps what was', () => {
    expect(isWhole('repetitions', '')).toBe(false);
    expect(isWhole('repetitions', '3')).toBe(false);
    expect(isWhole('repetitions', '3.12')).toBe(false);
    expect(isWhole('blocks', '3.2026-11-01')).toBe(false);
    expect(writeKey('repetitions', { ...readKey('repetitions', '3.12.40'), repetition_id: '' })).toBe('3.12');
    expect(writeKey('blocks', readKey('blocks', '3'))).toBe('3');
  });
});
