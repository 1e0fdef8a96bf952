/** Lists every odd file with what became of it: `npm run cases`. Exits with 1 when one was not as expected. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { FaultError } from '../../../shared/fault.ts';

const folder = fileURLToPath(new URL('./cases/', import.meta.url));
const counts = { read: 0, asked: 0, refused: 0, wrong: 0 };
for (const name of readdirSync(folder).sort()) {
  const files = readdirSync(folder + name);
  const file_name = files.find((file) => !file.endsWith('.json'))!;
  const json = (file: string) =>
    files.includes(file) ? JSON.parse(readFileSync(`${folder}${name}/${file}`, 'utf8')) : null;
  const want = json('refused.json') ?? json('expected.json');
  const line = await outcome(
    file_name,
    readFileSync(`${folder}${name}/${file_name}`),
    json('options.json') ?? {},
    want,
  );
  console.log(`${name.padEnd(36)} ${line}`);
}
console.log(
  `\n${counts.read} shapes read, ${counts.asked} ambiguous ones asked about, ${counts.refused} refused, ${counts.wrong} not as expected`,
);
process.exitCode = counts.wrong > 0 ? 1 : 0;

async function outcome(
  file_name: string,
  bytes: Buffer,
  options: object,
  want: { what: string; refused?: { code: string }; recordings?: { samples: number }[] },
): Promise<string> {
  try {
    const read = await readCsvRecording(bytes, { file_name, ...options });
    const same = want.recordings?.every(
      (sensor, index) => sensor.samples === read.recordings[index]?.samples.time_s.length,
    );
    if (!same) counts.wrong++;
    else counts.read++;
    const { samples } = read.recordings[0];
    const { acc, gyr } = read.layout.sensors[0];
    const facts = `${read.recordings.map(({ side }) => side).join('+')}, ${samples.sampling_rate_hz.toFixed(1)} Hz, ${acc.unit}, ${gyr?.unit ?? 'no gyroscope'}`;
    const faults = read.faults.map(({ code }) => code).join(' ');
    return `${same ? 'read   ' : 'WRONG  '} ${facts}${faults ? `; ${faults}` : ''} | ${want.what}`;
  } catch (cause) {
    if (!(cause instanceof FaultError)) throw cause;
    if (cause.code !== want.refused?.code) {
      counts.wrong++;
      return `WRONG   ${cause.message}`;
    }
    const asked = cause.code === 'LAYOUT_AMBIGUOUS';
    asked ? counts.asked++ : counts.refused++;
    return `${asked ? `asked   about the ${cause.where.about}` : `refused ${cause.code}`} | ${want.what}`;
  }
}
