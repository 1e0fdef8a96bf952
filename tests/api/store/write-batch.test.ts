import { expect, test } from 'vitest';
import { Store } from '../../../api/store/store.ts';
import { WriteBatch } from '../../../api/store/write-batch.ts';

function openNotes(): { store: Store; notes: () => number[]; note: (n: number) => number } {
  const store = Store.open(':memory:');
  store.database.exec('CREATE TABLE notes (n INTEGER PRIMARY KEY)');
  const insert = store.prepare('INSERT INTO notes VALUES (?)');
  return {
    store,
    notes: () => (store.prepare('SELECT n FROM notes ORDER BY n').all() as { n: number }[]).map(({ n }) => n),
    note: (n) => {
      insert.run(n);
      return n;
    },
  };
}

test('a batch is committed when it is asked to be, and tells each change its answer', async () => {
  const { store, notes, note } = openNotes();
  const batch = new WriteBatch(store);
  const answers = [1, 2, 3].map((n) => batch.add(() => note(n)));
  expect(notes()).toEqual([]);
  batch.flush();
  expect(notes()).toEqual([1, 2, 3]);
  expect(await Promise.all(answers)).toEqual([1, 2, 3]);
  store.close();
});

test('a batch is committed by itself, when it is full at once and otherwise after a while', async () => {
  const { store, notes, note } = openNotes();
  const batch = new WriteBatch(store);
  const answers = Array.from({ length: 33 }, (_, n) => batch.add(() => note(n)));
  expect(notes()).toHaveLength(32);
  expect(await answers[32]).toBe(32);
  store.close();
});

test('a change that fails is undone whole and leaves the others of its batch', async () => {
  const { store, notes, note } = openNotes();
  const batch = new WriteBatch(store);
  const first = batch.add(() => note(1));
  const broken = batch.add(() => {
    note(2);
    throw new Error('no more');
  });
  const last = batch.add(() => note(3));
  const refused = expect(broken).rejects.toThrow('no more');
  batch.flush();
  await refused;
  expect([await first, await last]).toEqual([1, 3]);
  expect(notes()).toEqual([1, 3]);
  store.close();
});

test('where the batch itself cannot be committed, every change of it is told so', async () => {
  const { store, note } = openNotes();
  const batch = new WriteBatch(store);
  const answers = [1, 2].map((n) => batch.add(() => note(n)));
  const refused = answers.map((answer) => expect(answer).rejects.toThrow(/not open/));
  store.close();
  batch.flush();
  await Promise.all(refused);
});
