import { describe, expect, test } from 'vitest';
import { defaultSettings } from '../../../ingest/ble/packets/decode-packet.ts';
import { shippedDescriptions } from '../../../ingest/ble/descriptions/index.ts';
import { encodePackets } from '../../../ingest/ble/packets/encode-packets.ts';
import { StreamAssembler } from '../../../ingest/ble/assembly/stream-assembler.ts';
import { numberedBlock } from '../../helpers/numbered-samples.ts';
import { checkSampleBlocks } from '../contract.ts';

/** The same promise that files keep, over radio packets that are whole, lost, repeated, or late. */
describe.each(shippedDescriptions())('the contract of sample blocks over the radio stream of $id', (description) => {
  const settings = defaultSettings(description);
  const packets = encodePackets(description, settings, numberedBlock(description, 20 * settings.rate_hz), {
    first_counter: 0,
    first_time_s: 100,
  });
  const conditions: Record<string, (index: number) => number[]> = {
    'nothing lost': (index) => [index],
    'one packet in nine lost': (index) => (index % 9 === 4 ? [] : [index]),
    'packets sent twice': (index) => (index % 7 === 3 ? [index, index] : [index]),
    'packets that change places': (index) => [index % 10 === 5 ? index + 1 : index % 10 === 6 ? index - 1 : index],
  };
  for (const [name, order] of Object.entries(conditions)) {
    test(`is kept with ${name}`, () => {
      const assembler = new StreamAssembler(description, settings);
      assembler.linkStarted();
      const sent = packets.flatMap((_, index) => order(index)).filter((index) => index < packets.length);
      sent.forEach((index, place) => {
        const { bytes, first_sample, samples } = packets[index];
        assembler.add(bytes, 5000 + Math.max(place * 1e-4, (first_sample + samples) / settings.rate_hz));
      });
      const block = assembler.block()!.block;
      expect(block.time_s.length).toBeGreaterThan(15 * settings.rate_hz);
      checkSampleBlocks([block]);
    });
  }
});
