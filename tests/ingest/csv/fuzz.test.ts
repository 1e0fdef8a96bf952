import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { FaultError } from '../../../shared/fault.ts';
import { FAULT_CODES } from '../../../shared/fault-codes.ts';
import { checkSampleBlocks } from '../contract.ts';
import { randomStream } from './make-signal.ts';

const folder = fileURLToPath(new URL('./cases/', import.meta.url));
const files = readdirSync(folder).map((name) => {
  const entries = readdirSync(folder + name);
  return readFileSync(`${folder}${name}/${entries.find((entry) => !entry.endsWith('.json'))}`);
});
/** More rounds for a longer search: FUZZ_ROUNDS=20 npx vitest run ... fuzz. */
const ROUNDS = Number(process.env.FUZZ_ROUNDS ?? 1);
const SEED = Number(process.env.FUZZ_SEED ?? 0);

/** Whatever the bytes: a clean recording or a fault that is known. How soon is left to the test's own limit. */
async function mustHold(bytes: Uint8Array, what: string): Promise<'read' | 'refused'> {
  let outcome: 'read' | 'refused' = 'read';
  try {
    const { recordings, faults } = await readCsvRecording(bytes, { file_name: 'fuzz.csv' });
    for (const { samples } of recordings) checkSampleBlocks([samples]);
    for (const fault of faults) expect(FAULT_CODES).toHaveProperty(fault.code);
  } catch (cause) {
    if (!(cause instanceof FaultError)) throw new Error(`${what}: ${cause instanceof Error ? cause.stack : cause}`);
    expect(FAULT_CODES).toHaveProperty(cause.code);
    expect(cause.message.length).toBeGreaterThan(10);
    outcome = 'refused';
  }
  return outcome;
}

describe('whatever the bytes, reading ends in a recording that keeps the contract or in a known fault', () => {
  test('random bytes', async () => {
    const random = randomStream(1 + SEED);
    for (let run = 0; run < 40 * ROUNDS; run++) {
      const bytes = Uint8Array.from({ length: Math.floor(random() * 5000) }, () => Math.floor(random() * 256));
      if (run % 3 === 0) bytes.set([0x1f, 0x8b, 8].slice(0, bytes.length));
      expect(await mustHold(bytes, `random bytes ${run}`)).toBe('refused');
    }
  });

  test('random text of the signs that tables are made of', async () => {
    const random = randomStream(2 + SEED);
    const signs = '0123456789.,;\t\n\r-+eE"xyzg ()/°time_acc';
    for (let run = 0; run < 40 * ROUNDS; run++) {
      const text = Array.from({ length: 3000 }, () => signs[Math.floor(random() * signs.length)]).join('');
      await mustHold(Buffer.from(text), `random text ${run}`);
    }
  });

  test('files cut anywhere', async () => {
    const random = randomStream(3 + SEED);
    for (let run = 0; run < 60 * ROUNDS; run++) {
      const bytes = files[Math.floor(random() * files.length)];
      const from = run % 2 ? 0 : Math.floor(random() * bytes.length);
      await mustHold(bytes.subarray(from, from + Math.floor(random() * (bytes.length - from))), `cut ${run}`);
    }
  });

  test('bytes changed at random', async () => {
    const random = randomStream(4 + SEED);
    for (let run = 0; run < 60 * ROUNDS; run++) {
      const bytes = Buffer.from(files[Math.floor(random() * files.length)]);
      const changes = 1 + Math.floor(random() * 40);
      for (let change = 0; change < changes && bytes.length > 0; change++) {
        bytes[Math.floor(random() * bytes.length)] = Math.floor(random() * 256);
      }
      await mustHold(bytes, `changed bytes ${run}`);
    }
  });

  test('cells, rows and columns changed at random', async () => {
    const random = randomStream(6 + SEED);
    const odd = [
      '',
      'NaN',
      '1e308',
      '-1e308',
      '999999999999',
      '-0',
      '0',
      '"',
      'x',
      '1e-320',
      '٣',
      '4294967295',
      '١٢',
      '1,5',
      'Infinity',
      '\u0000',
    ];
    const counts = { read: 0, refused: 0 };
    for (let run = 0; run < 100 * ROUNDS; run++) {
      const rows = files[Math.floor(random() * files.length)]
        .toString('utf8')
        .split('\n')
        .map((line) => line.split(','));
      const changes = 1 + Math.floor(random() * 12);
      for (let change = 0; change < changes; change++) {
        const row = rows[Math.floor(random() * rows.length)];
        if (!row || row.length === 0) break;
        const column = Math.floor(random() * row.length);
        const kind = random();
        if (kind < 0.5) row[column] = odd[Math.floor(random() * odd.length)];
        else if (kind < 0.65) row.splice(column, 1);
        else if (kind < 0.8) row.push('7');
        else if (kind < 0.9) rows.splice(Math.floor(random() * rows.length), 1);
        else rows.push(row);
      }
      counts[await mustHold(Buffer.from(rows.map((row) => row.join(',')).join('\n')), `changed cells ${run}`)]++;
    }
    // Damage this small must not lose every file, or the test would test nothing.
    expect(counts.read).toBeGreaterThan(25);
  });
});
