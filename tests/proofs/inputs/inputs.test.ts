/** A small seeded part of `npm run proof:inputs`. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { uniform } from '../../helpers/random.ts';
import { httpBodies } from './http-bodies.ts';
import { allReaders } from './readers.ts';
import { tryInput } from './try-input.ts';

const { readers, close } = allReaders();
afterAll(close);

describe('damaged inputs', () => {
  it.each(readers.map((reader) => [reader.name, reader] as const))(
    'of the kind "%s" end in a reading or a known fault, the same in pieces',
    { timeout: 60_000 },
    async (_name, reader) => {
      const wrong: string[] = [];
      for (let n = 0; n < 25; n++) {
        const bytes = reader.make(uniform(7_000_021 + n));
        const whole = await tryInput(() => reader.read(bytes, true));
        if (whole.kind === 'crashed') wrong.push(`input ${n}: ${whole.why}`);
        else if (reader.pieces && (await tryInput(() => reader.read(bytes, false))).value !== whole.value)
          wrong.push(`input ${n} differs in pieces`);
      }
      expect(wrong).toEqual([]);
    },
  );
});

describe('damaged requests', () => {
  let http: Awaited<ReturnType<typeof httpBodies>>;
  beforeAll(async () => {
    http = await httpBodies();
  });
  afterAll(() => http.close());

  it('are answered, or refused in the one fault shape', { timeout: 60_000 }, async () => {
    const wrong: string[] = [];
    for (let n = 0; n < 200; n++) {
      const { kind, why, what } = await http.ask(uniform(9_000_011 + n));
      if (kind === 'crashed') wrong.push(`${what}: ${why}`);
    }
    expect(wrong).toEqual([]);
  });
});
