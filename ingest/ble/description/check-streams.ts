import { type Notice, notice } from '../../../shared/notice.ts';
import { packetStreams, type PacketStream } from '../../../shared/packet-streams.ts';
import type { DescriptionRemark } from '../../../shared/description-remark.ts';
import type { RawChannel, StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { NUMBER_CODECS } from '../packets/number-types.ts';

/** What does not fit together in the kinds of packet, beyond what the schema can see. */
export function streamFaults(description: StreamDescription): DescriptionRemark[] {
  const streams = packetStreams(description);
  const faults = streams.flatMap((stream, at) => {
    const root = at === 0 ? '' : `/further_streams/${at - 1}`;
    return [...fieldFaults(stream, root), ...sampleFaults(stream, root)];
  });
  return [...faults, ...channelFaults(description, streams), ...kindFaults(streams)];
}

function fieldFaults({ packet, counter, time_stamp }: PacketStream, root: string): DescriptionRemark[] {
  const faults: DescriptionRemark[] = [];
  const add = (field: string, words: Notice) => faults.push({ field: `${root}${field}`, words });
  const fields = [...packet.header, ...(packet.trailer ?? [])];
  const count = (name: string) => fields.filter((entry) => entry.field === name).length;
  if (counter === null && time_stamp === null) {
    add('/counter', notice('remark_counter_or_stamp'));
  }
  const need = (name: string, wanted: boolean, why: Notice) => {
    const found = count(name);
    if (wanted && found !== 1) add('/packet/header', notice('remark_exactly_one', { name, count: found, why }));
    if (!wanted && found > 0) add('/packet/header', notice('remark_has_one_but', { name, why }));
  };
  for (const [name, part] of [
    ['counter', counter],
    ['time_stamp', time_stamp],
  ] as const) {
    const place = `/${name}`;
    need(
      name,
      part !== null,
      part === null ? notice('remark_is_null', { place }) : notice('remark_is_given', { place }),
    );
  }
  need('sample_count', packet.samples === 'sample_count', notice('remark_samples_from'));
  for (const part of ['header', 'trailer'] as const) {
    packet[part]?.forEach((entry, i) => {
      const at = `/packet/${part}/${i}`;
      const float_stamp = entry.field === 'time_stamp' && entry.type.startsWith('float');
      if (entry.field !== 'skip' && !entry.type.startsWith('uint') && !float_stamp) {
        add(`${at}/type`, notice('remark_unsigned', { field: entry.field, type: entry.type }));
      }
      if (entry.times !== undefined && entry.field !== 'skip') add(`${at}/times`, notice('remark_for_skip_only'));
    });
  }
  if (packet.trailer?.some((entry) => entry.field === 'sample_count')) {
    add('/packet/trailer', notice('remark_count_in_trailer'));
  }
  if (typeof packet.samples === 'number' && packet.samples > packet.max_samples) {
    add('/packet/samples', notice('remark_more_samples', { samples: packet.samples, most: packet.max_samples }));
  }
  return faults;
}

function sampleFaults({ packet }: PacketStream, root: string): DescriptionRemark[] {
  const faults: DescriptionRemark[] = [];
  packet.sample.forEach((entry, i) => {
    const field = `${root}/packet/sample/${i}`;
    if (entry.delta_type === undefined) return;
    if (entry.delta_type.startsWith('float') || entry.delta_type.startsWith('uint') || entry.type.startsWith('float')) {
      faults.push({ field: `${field}/delta_type`, words: notice('remark_signed_differences') });
    } else if (NUMBER_CODECS[entry.delta_type].bits > NUMBER_CODECS[entry.type].bits) {
      const words = notice('remark_wider', { type: entry.delta_type, than: entry.type });
      faults.push({ field: `${field}/delta_type`, words });
    }
  });
  const types = packet.sample.flatMap(({ type, delta_type }) => [type, delta_type ?? type]);
  const packed = types.filter((type) => NUMBER_CODECS[type].bits % 8 !== 0);
  if (packed.length > 0 && packed.length < types.length) {
    faults.push({
      field: `${root}/packet/sample`,
      words: notice('remark_packed_beside_whole', { types: [...new Set(types)] }),
    });
  }
  return faults;
}

function channelFaults(description: StreamDescription, streams: PacketStream[]): DescriptionRemark[] {
  const faults: DescriptionRemark[] = [];
  const named = streams.map(({ packet }) =>
    packet.sample.map((entry) => entry.channel).filter((name) => name !== 'skip'),
  );
  const all = named.flat();
  if (new Set(all).size !== all.length) faults.push({ field: '/packet/sample', words: notice('remark_channel_twice') });
  const found = (prefix: 'acc' | 'gyr', names: string[]) =>
    ['x', 'y', 'z'].filter((axis) => names.includes(`${prefix}_${axis}` as RawChannel)).length;
  const main = found('acc', named[0]);
  if (main !== 3) {
    faults.push({ field: '/packet/sample', words: notice('remark_main_channels', { count: main }) });
  }
  const gyr = found('gyr', all);
  const wanted = description.gyr === null ? 0 : 3;
  if (gyr !== wanted) {
    const words = notice('remark_gyr_channels', { count: gyr, wanted: wanted === 3 });
    faults.push({ field: '/packet/sample', words });
  }
  named.slice(1).forEach((names, i) => {
    const part = found('gyr', names);
    if (part !== 0 && part !== 3) {
      faults.push({ field: `/further_streams/${i}/packet/sample`, words: notice('remark_gyr_all_or_none') });
    }
  });
  return faults;
}

function kindFaults(streams: PacketStream[]): DescriptionRemark[] {
  return streams.flatMap((stream, at) => {
    const same = streams.filter((other) => other.characteristic_uuid === stream.characteristic_uuid);
    const field = at === 0 ? '/kind' : `/further_streams/${at - 1}/kind`;
    if (same.length > 1 && same.some((other) => other.kind === undefined)) {
      return [{ field, words: notice('remark_kind_needed') }];
    }
    const twins = same.filter(
      (other) => other.kind?.at === stream.kind?.at && other.kind?.value === stream.kind?.value,
    );
    return twins.length > 1 && stream.kind ? [{ field, words: notice('remark_kind_twice') }] : [];
  });
}
