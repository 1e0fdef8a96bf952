import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { readImportList } from '../../../api/command-line/import-list.ts';
import { readReference } from '../../../api/agreement/read-reference.ts';
import { readStudyList } from '../../../api/agreement/read-study-list.ts';
import { readMotionFile } from '../../../api/export/motion-bids/read-motion-bids.ts';
import { mergeSettings } from '../../../api/measuring/read-settings.ts';
import { DEFAULT_SETTINGS } from '../../../dsp/settings/settings.ts';
import { assembleLog, readPacketLog } from '../../../ingest/ble/assembly/read-packet-log.ts';
import { readStreamDescription } from '../../../ingest/ble/description/read-stream-description.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import { readLayoutFile } from '../../../ingest/csv/infer/layout-file.ts';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { readTimingFile } from '../../../ingest/timing/read-timing-file.ts';
import { decodeRecords, encodeRecord } from '../../../shared/packet-record.ts';
import { numberedBlock } from '../../helpers/numbered-samples.ts';
import { mutateBytes, mutateJson, type Random, pick } from './mutate.ts';

/** One reader of the product with what it reads when all is well. */
export interface Reader {
  name: string;
  /** A damaged input. */
  make(random: Random): Uint8Array;
  /** @param whole false hands the bytes out in odd pieces, where the reader takes pieces */
  read(bytes: Uint8Array, whole: boolean): unknown;
  /** True where `whole` makes a difference. */
  pieces: boolean;
}

const text = (bytes: Uint8Array) => new TextDecoder().decode(bytes);
const bytesOf = (value: unknown) => Buffer.from(JSON.stringify(value) ?? 'undefined');
const CASES = fileURLToPath(new URL('../../ingest/csv/cases/', import.meta.url));

async function* inPieces(bytes: Uint8Array) {
  for (let at = 0, length = 1; at < bytes.length; at += length, length = ((length * 7) % 4093) + 1)
    yield bytes.subarray(at, at + length);
}

function csvSeeds(): Uint8Array[] {
  const files = readdirSync(CASES).map((name) => {
    const entry = readdirSync(CASES + name).find((file) => !file.endsWith('.json'))!;
    return readFileSync(`${CASES}${name}/${entry}`);
  });
  return [...files, ...files.slice(0, 10).map((file) => gzipSync(file))].filter((file) => file.length < 400_000);
}

/** A description and packets that fit it, as a log. */
function packetLog(): Uint8Array {
  const [description] = shippedDescriptions();
  const settings = defaultSettings(description);
  const header = {
    format: 'packet-log/1' as const,
    sensor_id: 'S:1',
    sensor_name: 'a sensor',
    side: 'left' as const,
    mounting: 'foot' as const,
    description,
    settings,
  };
  const packets = encodePackets(description, settings, numberedBlock(description, 1000));
  const clock = { event: 'clock' as const, utc_ms: 1.7e12, monotonic_s: 5, boot_id: 'b' };
  return Buffer.concat([
    encodeRecord({ kind: 'header', arrival_s: 0, header }),
    encodeRecord({ kind: 'event', arrival_s: 0, event: clock }),
    ...packets.map(({ bytes, first_sample }) =>
      encodeRecord({ kind: 'packet', arrival_s: 5 + first_sample / 1000, bytes }),
    ),
  ]);
}

const LAYOUT = {
  text: {
    encoding: 'utf-8',
    delimiter: ',',
    decimal_mark: '.',
    header_row: true,
    units_row: false,
    missing_values: ['x'],
  },
  time: { kind: 'number', columns: ['t'], seconds_per_unit: 0.001, epoch_s: null, date_order: null, rate_hz: null },
  acc_columns: [1, 2, 3],
  gyr_columns: ['gx', 'gy', 'gz'],
  side_values: { a: 'left', b: 'right' },
  acc_unit: 'g',
  acc_counts_per_g: 2048,
};
const TIMES =
  'athlete;date;repetition;distance;time;method\nRosa Quill;2026-03-02;1;10 m;2,103;gates\nRosa Quill;2026-03-02;1;40 yd;5,21;hand\n';
const REFERENCE =
  'side,touchdown_s,toe_off_s,step_length_m\nleft,1.000,1.120,\nright,1.240,1.350,1.2\nleft,1.480,1.590,1.3\n';
const STUDY = 'athlete,left,right,mount,reference,course,time\nA,l.csv,r.csv,foot,ref.csv,40yd,5.2s\n';
const IMPORTS = 'athlete,session_date,left,right,mount,course,time\nRosa,2026-03-02,l.csv,r.csv,foot,40yd,5.2s\n';
const CHANNELS = ['ACCEL', 'GYRO']
  .flatMap((type) => ['x', 'y', 'z'].map((axis) => `${type}_${axis}\t${axis}\t${type}\tleft_foot\tm/s^2`))
  .join('\n');

/** Every reader of what comes from outside, with a folder of passing files; `close` takes it away. */
export function allReaders(): { readers: Reader[]; close: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'cinderlane-inputs-'));
  for (const name of ['l.csv', 'r.csv', 'ref.csv']) writeFileSync(join(folder, name), '');
  const asFile = (name: string, bytes: Uint8Array) => {
    writeFileSync(join(folder, name), bytes);
    return join(folder, name);
  };
  const csv = csvSeeds();
  const log = packetLog();
  const ofBytes = (name: string, seeds: Uint8Array[], read: (bytes: Uint8Array) => unknown): Reader => ({
    name,
    make: (random) => mutateBytes(pick(random, seeds), random),
    read,
    pieces: false,
  });
  const ofJson = (name: string, seeds: unknown[], read: (bytes: Uint8Array) => unknown): Reader => ({
    name,
    make: (random) => {
      const made = bytesOf(mutateJson(pick(random, seeds), random));
      return random() < 0.1 ? mutateBytes(made, random) : made;
    },
    read,
    pieces: false,
  });
  const motion = Array.from({ length: 50 }, (_, i) => [i % 7, 1, 9.8, 0.1, 0.2, 'n/a'].join('\t')).join('\n');
  const readers: Reader[] = [
    {
      name: 'sensor files',
      make: (random) => mutateBytes(pick(random, csv), random),
      read: (bytes, whole) => readCsvRecording(whole ? bytes : inPieces(bytes), { file_name: 'a.csv' }),
      pieces: true,
    },
    ofBytes('packet logs', [log], (bytes) => assembleLog(readPacketLog('log', bytes)).block()),
    ofBytes('packet batches', [log, log.subarray(log.length - 5000)], (bytes) => decodeRecords(bytes)),
    ofJson('stream descriptions', shippedDescriptions(), (bytes) => readStreamDescription('d', text(bytes))),
    ofJson('layouts', [LAYOUT], (bytes) => readLayoutFile(text(bytes), 'layout')),
    ofJson('settings', [DEFAULT_SETTINGS], (bytes) => {
      let part: unknown;
      try {
        part = JSON.parse(text(bytes));
      } catch {
        return 'no JSON';
      }
      return mergeSettings(part, 'settings');
    }),
    ofBytes('times', [Buffer.from(TIMES)], (bytes) => readTimingFile(bytes, { file_name: 't.csv' })),
    ofBytes('references', [Buffer.from(REFERENCE)], (bytes) => readReference(text(bytes), 'ref.csv')),
    ofBytes('study lists', [Buffer.from(STUDY)], (bytes) => readStudyList(asFile('study.csv', bytes))),
    ofBytes('import lists', [Buffer.from(IMPORTS)], (bytes) => readImportList(asFile('list.csv', bytes))),
  ];
  const stem = 'sub-A_task-sprint_tracksys-left';
  const parts: Record<string, Uint8Array> = {
    [`${stem}_motion.tsv`]: Buffer.from(`${motion}\n`),
    [`${stem}_motion.json`]: bytesOf({ SamplingFrequency: 500, SamplingFrequencyEffective: 499.9 }),
    [`${stem}_channels.tsv`]: Buffer.from(`name\tcomponent\ttype\ttracked_point\tunits\n${CHANNELS}\n`),
    'own.json': bytesOf({ Side: 'left', Mounting: 'foot', ClockOffset: 0, Gaps: [] }),
  };
  // One of the four files is damaged; its name goes in front of its bytes.
  readers.push({
    name: 'Motion-BIDS',
    make: (random) => {
      const name = pick(random, Object.keys(parts));
      return Buffer.concat([Buffer.from(`${name}\n`), mutateBytes(parts[name], random)]);
    },
    read: (bytes) => {
      const end = Buffer.from(bytes).indexOf(10);
      const damaged = text(bytes.subarray(0, end));
      for (const [name, good] of Object.entries(parts)) asFile(name, name === damaged ? bytes.subarray(end + 1) : good);
      return readMotionFile(join(folder, `${stem}_motion.tsv`), join(folder, 'own.json'));
    },
    pieces: false,
  });
  return { readers, close: () => rmSync(folder, { recursive: true, force: true }) };
}
