/** Putting two versions of a row together, and looking for a name in bytes: the rules by themselves. */
import { expect, test } from 'vitest';
import { NameFinder } from '../../../api/archive/exchange/name-in-bytes.ts';
import { type Fields, marksOf } from '../../../api/archive/rows/marks.ts';
import { mergeRows } from '../../../api/archive/rows/merge.ts';
import { uniform } from '../../helpers/random.ts';

const side = (fields: Fields, at: string | Record<string, string>) => ({
  fields,
  stamp: (field: string) => (typeof at === 'string' ? at : (at[field] ?? '')),
});

test('a field that one side changed is taken from it, and nothing else is touched', () => {
  const base = { name: 'Ida', mass: 60, notes: '' };
  const merged = mergeRows(
    marksOf(base),
    side({ ...base, mass: 61 }, '2026-02-01'),
    side({ ...base, notes: 'tall' }, '2026-01-01'),
  );
  expect(merged).toEqual({ to_archive: { mass: 61 }, to_local: { notes: 'tall' }, conflicts: [] });
});

test('of a field that both changed the later value is kept and the other one told; the same value twice is no conflict', () => {
  const base = { name: 'Ida', mass: 60 };
  const merged = mergeRows(
    marksOf(base),
    side({ name: 'Ida Fenn', mass: 62 }, { name: '2026-01-01', mass: '2026-01-02' }),
    side({ name: 'Ida F.', mass: 62 }, { name: '2026-01-03', mass: '2026-01-01' }),
  );
  expect(merged.to_local).toEqual({ name: 'Ida F.' });
  expect(merged.to_archive).toEqual({});
  expect(merged.conflicts).toEqual([
    { field: 'name', kept: 'Ida F.', kept_utc: '2026-01-03', other: 'Ida Fenn', other_utc: '2026-01-01' },
  ]);
});

test('a field that the archive does not know yet is sent, whatever else was agreed', () => {
  const merged = mergeRows(
    marksOf({ name: 'Ida' }),
    side({ name: 'Ida', later: 3 }, '2026-01-01'),
    side({ name: 'Ida' }, '2026-01-01'),
  );
  expect(merged).toEqual({ to_archive: { later: 3 }, to_local: {}, conflicts: [] });
});

test('whichever machine decides, both decide the same, and no value that was written is lost in silence', () => {
  const random = uniform(11);
  const pick = <Item>(items: Item[]) => items[Math.floor(items.length * random())];
  const values = [null, 0, 1, 'a', 'b', 'a long text '.repeat(20), [1, 2], { x: 1 }];
  const fields = ['one', 'two', 'three'];
  const row = () => Object.fromEntries(fields.map((name) => [name, pick(values)]));
  for (let round = 0; round < 3000; round++) {
    const [base, a, b] = [row(), row(), row()];
    const stamps = () => Object.fromEntries(fields.map((name) => [name, pick(['2026-01-01', '2026-01-02'])]));
    const [at, bt] = [stamps(), stamps()];
    const agreed = random() < 0.8 ? marksOf(base) : null;
    const one = mergeRows(agreed, side(a, at), side(b, bt));
    const other = mergeRows(agreed, side(b, bt), side(a, at));
    const result = { ...b, ...one.to_archive };
    expect({ ...a, ...one.to_local }).toEqual(result);
    expect({ ...a, ...other.to_archive }).toEqual(result);
    for (const name of fields) {
      const kept = marksOf(result)[name];
      for (const mine of [a, b]) {
        const changed = marksOf(mine)[name] !== agreed?.[name];
        const told = one.conflicts.some(
          ({ field, other }) => field === name && marksOf({ other }).other === marksOf(mine)[name],
        );
        if (changed && marksOf(mine)[name] !== kept) expect([round, name, told]).toEqual([round, name, true]);
      }
    }
  }
});

test('a name is found in the head of a file in any case, across the edge of two pieces and in Latin-1, and not inside other words', () => {
  const found = (name: string, ...pieces: (string | Buffer)[]) => {
    const finder = new NameFinder(name);
    for (const piece of pieces) finder.look(typeof piece === 'string' ? Buffer.from(piece) : piece);
    return finder.found;
  };
  expect(found('Tamsin Oakenfold', '# subject: OAKENFOLD_T\n1,2\n')).toBe(true);
  expect(found('Tamsin Oakenfold', '# subject: oaken', 'fold, left\n')).toBe(true);
  expect(found('Zoë Grün', Buffer.from('athlete;Gr\xfcn\n', 'latin1'))).toBe(true);
  for (const text of ['athlete;grün\n', 'ATHLETE;GRÜN\n', Buffer.from('athlete;Grün\n', 'utf16le')])
    expect(found('Zoë Grün', text)).toBe(true);
  // Of two signs that are no Latin letters nothing sure can be said of bytes: taken as found.
  expect(found('李雷', 'subject,李雷\n')).toBe(true);
  expect(found('Ann Lee', 'channel,planned,sleeve\n0.1,0.2\n')).toBe(false);
  expect(found('Jo Li', 'time,jo,li\n')).toBe(false);
  expect(found('', 'anything\n')).toBe(false);
});
