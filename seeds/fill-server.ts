/**
 * Fills a running, empty server with the demo club, of any size:
 * `npx tsx seeds/fill-server.ts --address http://127.0.0.1:7100 [--athletes 30] [--weeks 52] [--repetitions 1]
 * [--no-part-speed] [--rate 300] [--today 2026-11-25]`
 */
import { parseArgs } from 'node:util';
import type { AthleteList } from '../shared/schemas/athlete.ts';
import { type DemoApi, loadDemo } from './load-demo.ts';

const { values } = parseArgs({
  options: {
    address: { type: 'string', default: 'http://127.0.0.1:7100' },
    athletes: { type: 'string', default: '8' },
    weeks: { type: 'string', default: '4' },
    repetitions: { type: 'string', default: '3' },
    'no-part-speed': { type: 'boolean', default: false },
    rate: { type: 'string', default: '400' },
    today: { type: 'string' },
  },
});

const api: DemoApi = {
  async call(method, path, body) {
    const json = body !== undefined && !(body instanceof FormData);
    const answer = await fetch(`${values.address}/api${path}`, {
      method,
      body: json ? JSON.stringify(body) : (body as FormData | undefined),
      headers: json ? { 'content-type': 'application/json' } : {},
    });
    const value = await answer.json();
    if (!answer.ok) throw new Error(`${method} ${path}: ${JSON.stringify(value)}`);
    return value as never;
  },
};

if ((await api.call<AthleteList>('GET', '/athletes')).items.length > 0) {
  console.error('The server has athletes already; the demo goes into an empty one only. Nothing was done.');
  process.exit(1);
}
const begin = performance.now();
const seconds = () => ((performance.now() - begin) / 1000).toFixed(1);
let shown = 0;
const result = await loadDemo(api, {
  today: values.today,
  athletes: Number(values.athletes),
  weeks: Number(values.weeks),
  repetitions: Number(values.repetitions),
  part_speed: !values['no-part-speed'],
  rate_hz: Number(values.rate),
  onProgress: (done, total) => {
    if (done !== total && done < shown + total / 20) return;
    shown = done;
    console.log(`${done} of ${total} repetitions after ${seconds()} s`);
  },
});
console.log(
  `${result.athletes} athletes, ${result.sessions} sessions, ${result.repetitions} repetitions in ${seconds()} s.`,
);
for (const line of result.failed) console.error(line);
process.exit(result.failed.length > 0 ? 1 : 0);
