import { notice } from '../../../shared/notice.ts';
import { packetStreams } from '../../../shared/packet-streams.ts';
import type { DescriptionRemark } from '../../../shared/description-remark.ts';
import type { StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { NUMBER_CODECS } from '../packets/number-types.ts';
import { packetShape } from '../packets/packet-shape.ts';

/** Stalls of a radio link that must be expected: another connection, a body between, a busy host. Common practice, seconds. */
const LIKELY_STALL_S = 2;
/** Bytes of a notification that every link carries: the least MTU of 23 less 3. */
const LEAST_MTU = 23;
const LARGEST_PACKET = 512;
const NOTIFICATION_BYTES = 3;

/** What is allowed, but will cost something: told when a description is loaded, and never a reason to refuse it. */
export function descriptionWarnings(description: StreamDescription): DescriptionRemark[] {
  const warnings: DescriptionRemark[] = [];
  const fastest_hz = Math.max(...description.rates.map((rate) => rate.rate_hz));
  packetStreams(description).forEach((stream, at) => {
    const root = at === 0 ? '' : `/further_streams/${at - 1}`;
    const { packet, counter, time_stamp } = stream;
    const rate_hz = fastest_hz * (stream.rate_ratio ?? 1);
    const field = [...packet.header, ...(packet.trailer ?? [])].find((entry) => entry.field === 'counter');
    if (field !== undefined && counter !== null && time_stamp === null) {
      const per_packet = typeof packet.samples === 'number' ? packet.samples : packet.max_samples;
      const wrap_s = ((NUMBER_CODECS[field.type].max + 1) * (counter.counts === 'packets' ? per_packet : 1)) / rate_hz;
      if (wrap_s < LIKELY_STALL_S) {
        warnings.push({
          field: `${root}/counter`,
          words: notice('remark_short_counter', { rate_hz, wrap_s, stall_s: LIKELY_STALL_S }),
        });
      }
    }
    if (at > 0 && time_stamp === null) {
      warnings.push({ field: `${root}/time_stamp`, words: notice('remark_by_arrival') });
    }
    const shape = packetShape(packet);
    const bytes = shape.header_bytes + shape.bodyBytes(packet.max_samples) + shape.trailer_bytes + shape.checksum_bytes;
    if (bytes > LARGEST_PACKET) {
      warnings.push({
        field: `${root}/packet/max_samples`,
        words: notice('remark_long_packet', { samples: packet.max_samples, bytes, most: LARGEST_PACKET }),
      });
    }
    const mtu = description.connection?.least_mtu ?? LEAST_MTU;
    if (bytes + NOTIFICATION_BYTES > mtu && description.connection?.least_mtu !== undefined) {
      warnings.push({
        field: '/connection/least_mtu',
        words: notice('remark_small_mtu', { bytes, needed: bytes + NOTIFICATION_BYTES, mtu }),
      });
    }
  });
  return warnings;
}
