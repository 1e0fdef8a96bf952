import { analyseExcerpts, repetitionWithin } from '../../../api/capture/results/analyse-excerpt.ts';
import { analyse } from '../../../dsp/analyse.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { UNKNOWN_CONDITIONS, UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import { encodeRecord, type PacketRecord } from '../../../shared/packet-record.ts';
import { runningPackets } from '../../helpers/running-packets.ts';

const SIDES = ['left', 'right'] as const;

/**
 * What the live path makes of a repetition (cut out of the stream, both clocks from jittery arrivals) against the same
 * packets analysed as one file on one perfect clock.
 */
export function liveAgainstFile(seeds: number, say: (text: string) => void): void {
  const [bramble] = shippedDescriptions();
  const settings = { rate_hz: 1000, acc_full_scale: 32, gyr_full_scale: 4000 };
  let [contacts, different_counts, worst_contact_ms, worst_sides_ms] = [0, 0, 0, 0];
  for (let seed = 1; seed <= seeds; seed++) {
    const run = runningPackets(bramble, settings, { seed, stand_before_s: 8, stand_after_s: 4 });
    const file = analyse({
      sensors: SIDES.map((side) => {
        const assembler = new StreamAssembler(bramble, settings);
        for (const { bytes, due_s } of run.recorded[side]) assembler.add(Buffer.from(bytes, 'hex'), due_s);
        const { block: samples } = assembler.block()!;
        return { side, mounting: 'foot' as const, samples, clock_offset_s: 0, clock_drift: 0, clock_offset_u_s: 0 };
      }),
      course: UNKNOWN_COURSE,
      conditions: UNKNOWN_CONDITIONS,
    }).repetitions[0];
    const excerpts = SIDES.map((side, i) => {
      // On a grid of connection intervals, each side on its own.
      const arrival = (due_s: number) => 100 + Math.ceil((due_s + 0.003 * i) / 0.015) * 0.015 + 0.004;
      const records = run.recorded[side]
        .map(
          ({ bytes, due_s }): PacketRecord => ({
            kind: 'packet',
            arrival_s: arrival(due_s),
            bytes: Buffer.from(bytes, 'hex'),
          }),
        )
        .filter(({ arrival_s }) => arrival_s > 100 + file.start_s - 6 && arrival_s < 100 + file.end_s + 1.2);
      const header = {
        format: 'packet-log/1' as const,
        sensor_id: side,
        sensor_name: side,
        side,
        mounting: 'foot' as const,
        description: bramble,
        settings,
      };
      return {
        file_name: side,
        bytes: Buffer.concat([{ kind: 'header' as const, arrival_s: 0, header }, ...records].map(encodeRecord)),
      };
    });
    const cut = analyseExcerpts(excerpts, UNKNOWN_COURSE, UNKNOWN_CONDITIONS)!;
    const live = repetitionWithin(cut, 100 + file.start_s, 100 + file.end_s)!;
    contacts += live.contacts.length;
    if (live.contacts.length !== file.contacts.length) {
      different_counts++;
      continue;
    }
    for (const [k, contact] of live.contacts.entries()) {
      const other = file.contacts[k];
      worst_contact_ms = Math.max(
        worst_contact_ms,
        Math.abs((contact.contact_time_ms ?? 0) - (other.contact_time_ms ?? 0)),
      );
      const step = (list: typeof live.contacts) => (k === 0 ? 0 : list[k].touchdown_s - list[k - 1].touchdown_s);
      worst_sides_ms = Math.max(worst_sides_ms, 1000 * Math.abs(step(live.contacts) - step(file.contacts)));
    }
  }
  say(
    `  ${seeds} repetitions, ${contacts} contacts: ${different_counts} with another number of contacts; ` +
      `greatest difference of a contact time ${worst_contact_ms.toFixed(2)} ms, of a step time (left to right) ${worst_sides_ms.toFixed(2)} ms`,
  );
}
