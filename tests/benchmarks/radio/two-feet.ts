import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { packetStreams } from '../../../shared/packet-streams.ts';
import { uniform } from '../../helpers/random.ts';
import { recordedFoot, sprintOnTwoLinks } from '../../helpers/two-links.ts';

/** How well two feet are put on one clock: the error between them in the middle of the recording, and what is said of it. */
export function twoFeet(runs: number, say: (text: string) => void): void {
  // One kind of packet carries everything: the clock is the same for sensors with several.
  const kinds = shippedDescriptions().filter((kind) => packetStreams(kind).length === 1);
  const rms = (values: number[]) => Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length);
  for (const length_s of [13, 60]) {
    for (const kind of kinds) {
      const [errors, ratios, stated]: number[][] = [[], [], []];
      let found = 0;
      for (let seed = 1; seed <= runs; seed++) {
        const random = uniform(1000 * length_s + seed);
        const feet = [recordedFoot(kind, length_s, random), recordedFoot(kind, length_s, random)];
        const error = feet[0].error_s - feet[1].error_s;
        const u = Math.hypot(feet[0].u_s, feet[1].u_s);
        errors.push(error);
        stated.push(u);
        ratios.push(error / u);
        found += feet.filter((foot) => foot.found_interval_s === foot.interval_s).length;
      }
      const within = ratios.filter((ratio) => Math.abs(ratio) < 1.96).length / ratios.length;
      say(
        `  ${kind.id}, ${length_s} s: error between the feet ${(1000 * rms(errors)).toFixed(2)} ms rms, worst ` +
          `${(1000 * Math.max(...errors.map(Math.abs))).toFixed(2)} ms; stated ${(1000 * rms(stated)).toFixed(2)} ms, ` +
          `within 1.96 u in ${(100 * within).toFixed(0)} %; interval found in ${Math.round((50 * found) / runs)} %`,
      );
    }
  }
  for (const kind of kinds) {
    const results = Array.from({ length: Math.ceil(runs / 2) }, (_, i) => sprintOnTwoLinks(kind, 70 + i));
    const errors = results.map(({ error_s }) => error_s);
    const within = results.filter(({ error_s, u_s }) => Math.abs(error_s) < 1.96 * u_s).length / results.length;
    say(
      `  ${kind.id}, a sprint, with what the steps tell: ${(1000 * rms(errors)).toFixed(2)} ms rms, worst ` +
        `${(1000 * Math.max(...errors.map(Math.abs))).toFixed(2)} ms; stated ${(1000 * rms(results.map(({ u_s }) => u_s))).toFixed(2)} ms, ` +
        `within 1.96 u in ${(100 * within).toFixed(0)} %`,
    );
  }
}
