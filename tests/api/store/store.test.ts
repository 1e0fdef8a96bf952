import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { migrate } from '../../../api/store/migrate.ts';
import { RawFileWriter, readRawFile, removeIncompleteRawFiles } from '../../../api/store/raw-files.ts';
import { Store } from '../../../api/store/store.ts';
import type { Contact } from '../../../shared/analysis.ts';
import { analyse } from '../../../dsp/analyse.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import { sprintFiles } from '../../helpers/sprint-files.ts';
import { uniform } from '../../helpers/random.ts';

async function bytesOf(chunks: AsyncIterable<Uint8Array>): Promise<Buffer> {
  const all: Uint8Array[] = [];
  for await (const chunk of chunks) all.push(chunk);
  return Buffer.concat(all);
}

describe('store', () => {
  it('runs every migration once and finds nothing to do the second time', () => {
    const store = Store.open(':memory:');
    const files = readdirSync(new URL('../../../api/store/migrations/', import.meta.url));
    const applied = store.prepare('SELECT name FROM migrations ORDER BY name').all() as { name: string }[];
    expect(applied.map((row) => row.name)).toEqual(files.sort());
    expect(migrate(store.database)).toEqual([]);
    store.close();
  });

  it('undoes all of a transaction when its work throws, nested ones included', () => {
    const store = Store.open(':memory:');
    const add = () =>
      store.run(store.query.insertInto('groups').values({ name: 'x', created_utc: '', updated_utc: '' }));
    expect(() =>
      store.transaction(() => {
        add();
        store.transaction(add);
        throw new Error('stop');
      }),
    ).toThrow('stop');
    expect(store.all(store.query.selectFrom('groups').selectAll())).toEqual([]);
    store.close();
  });

  it('has a column for every field of a contact, so that none hides in other_fields', () => {
    const store = Store.open(':memory:');
    const columns = (store.prepare('SELECT name FROM pragma_table_info(?)').all('contacts') as { name: string }[]).map(
      (column) => column.name,
    );
    const { left } = sprintFiles().recording.sensors.foot;
    const place = { clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0, mounting: 'foot', side: 'left' } as const;
    const { repetitions } = analyse({
      sensors: [{ ...place, samples: left }],
      course: UNKNOWN_COURSE,
      conditions: UNKNOWN_CONDITIONS,
    });
    const contact: Contact = repetitions[0].contacts[0];
    expect(Object.keys(contact).filter((field) => !columns.includes(field))).toEqual([]);
    store.close();
  });
});

describe('raw files', () => {
  const next = uniform(5);
  const bytes = Buffer.from(Array.from({ length: 2_600_000 }, () => Math.floor(256 * next())));

  it('come back byte for byte, whatever the sizes of the pieces they came in', async () => {
    const store = Store.open(':memory:');
    const writer = new RawFileWriter(store, 'a.csv');
    for (let at = 0, size = 1; at < bytes.length; at += size, size = 1 + Math.floor(400_000 * next())) {
      await writer.append(bytes.subarray(at, at + size));
      if (at + size >= bytes.length) break;
    }
    const stored = await writer.finish();
    expect(stored.bytes).toBe(writer.bytes);
    const back = await bytesOf(readRawFile(store, stored.raw_file_id));
    expect(back.equals(bytes.subarray(0, back.length))).toBe(true);
    expect(back.length).toBe(writer.bytes);
    store.close();
  });

  it('are kept once when the same content comes again', async () => {
    const store = Store.open(':memory:');
    const write = async () => {
      const writer = new RawFileWriter(store, 'a.csv');
      await writer.append(bytes);
      return writer.finish();
    };
    const first = await write();
    const second = await write();
    expect(first.seen_before).toBe(false);
    expect(second).toEqual({ ...first, seen_before: true });
    expect(store.all(store.query.selectFrom('raw_files').selectAll()).length).toBe(1);
    store.close();
  });

  it('are taken away when they never came whole', async () => {
    const store = Store.open(':memory:');
    await new RawFileWriter(store, 'broken.csv').append(bytes);
    expect(removeIncompleteRawFiles(store)).toBe(1);
    expect(store.prepare('SELECT count(*) AS n FROM raw_chunks').get()).toEqual({ n: 0 });
    store.close();
  });
});
