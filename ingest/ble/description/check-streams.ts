import { packetStreams, type PacketStream } from '../../../shared/packet-streams.ts';
import type { RawChannel, StreamDescription } from '../../../shared/schemas/stream-description.ts';
import { NUMBER_CODECS } from '../packets/number-types.ts';
import type { DescriptionRemark } from './schema-words.ts';

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
  const add = (field: string, words: string) => faults.push({ field: `${root}${field}`, words });
  const fields = [...packet.header, ...(packet.trailer ?? [])];
  const count = (name: string) => fields.filter((entry) => entry.field === name).length;
  if (counter === null && time_stamp === null) {
    add('/counter', 'a counter or a time stamp is needed: losses cannot be told without one of them');
  }
  const need = (name: string, wanted: boolean, of: string) => {
    const found = count(name);
    if (wanted && found !== 1) {
      add('/packet/header', `must have exactly one ${name} (header and trailer together, found ${found}), since ${of}`);
    }
    if (!wanted && found > 0) add('/packet/header', `has a ${name}, but ${of}`);
  };
  need('counter', counter !== null, counter === null ? '/counter is null' : '/counter is given');
  need('time_stamp', time_stamp !== null, time_stamp === null ? '/time_stamp is null' : '/time_stamp is given');
  need('sample_count', packet.samples === 'sample_count', '/packet/samples says where the number of samples is from');
  for (const part of ['header', 'trailer'] as const) {
    packet[part]?.forEach((entry, i) => {
      const at = `/packet/${part}/${i}`;
      const float_stamp = entry.field === 'time_stamp' && entry.type.startsWith('float');
      if (entry.field !== 'skip' && !entry.type.startsWith('uint') && !float_stamp) {
        add(`${at}/type`, `${entry.field} must be an unsigned integer, not ${entry.type}`);
      }
      if (entry.times !== undefined && entry.field !== 'skip') add(`${at}/times`, 'is for skip only');
    });
  }
  if (packet.trailer?.some((entry) => entry.field === 'sample_count')) {
    add('/packet/trailer', 'cannot hold sample_count: it must be known before the samples are read');
  }
  if (typeof packet.samples === 'number' && packet.samples > packet.max_samples) {
    add('/packet/samples', `is ${packet.samples}, more than /packet/max_samples ${packet.max_samples}`);
  }
  return faults;
}

function sampleFaults({ packet }: PacketStream, root: string): DescriptionRemark[] {
  const faults: DescriptionRemark[] = [];
  packet.sample.forEach((entry, i) => {
    const field = `${root}/packet/sample/${i}`;
    if (entry.delta_type === undefined) return;
    if (entry.delta_type.startsWith('float') || entry.delta_type.startsWith('uint') || entry.type.startsWith('float')) {
      faults.push({ field: `${field}/delta_type`, words: 'differences must be signed integers of an integer channel' });
    } else if (NUMBER_CODECS[entry.delta_type].bits > NUMBER_CODECS[entry.type].bits) {
      faults.push({ field: `${field}/delta_type`, words: `${entry.delta_type} is wider than ${entry.type}` });
    }
  });
  const types = packet.sample.flatMap(({ type, delta_type }) => [type, delta_type ?? type]);
  const packed = types.filter((type) => NUMBER_CODECS[type].bits % 8 !== 0);
  if (packed.length > 0 && packed.length < types.length) {
    faults.push({
      field: `${root}/packet/sample`,
      words: `types of 4 and 12 bits cannot stand beside types of whole bytes in one sample (${[...new Set(types)].join(', ')})`,
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
  if (new Set(all).size !== all.length) faults.push({ field: '/packet/sample', words: 'names a channel twice' });
  const found = (prefix: 'acc' | 'gyr', names: string[]) =>
    ['x', 'y', 'z'].filter((axis) => names.includes(`${prefix}_${axis}` as RawChannel)).length;
  const main = found('acc', named[0]);
  if (main !== 3) {
    faults.push({
      field: '/packet/sample',
      words: `has ${main} of the 3 acc channels; the main packet must carry all three`,
    });
  }
  const gyr = found('gyr', all);
  const wanted = description.gyr === null ? 0 : 3;
  if (gyr !== wanted) {
    faults.push({
      field: '/packet/sample',
      words: `has ${gyr} of the 3 gyr channels; /gyr ${wanted === 3 ? 'needs all' : 'is null'}`,
    });
  }
  named.slice(1).forEach((names, i) => {
    const part = found('gyr', names);
    if (part !== 0 && part !== 3) {
      faults.push({ field: `/further_streams/${i}/packet/sample`, words: 'must carry all three gyr channels or none' });
    }
  });
  return faults;
}

function kindFaults(streams: PacketStream[]): DescriptionRemark[] {
  return streams.flatMap((stream, at) => {
    const same = streams.filter((other) => other.characteristic_uuid === stream.characteristic_uuid);
    const field = at === 0 ? '/kind' : `/further_streams/${at - 1}/kind`;
    if (same.length > 1 && same.some((other) => other.kind === undefined)) {
      return [
        { field, words: 'packets of one characteristic are told apart by a byte: each of its streams needs a kind' },
      ];
    }
    const twins = same.filter(
      (other) => other.kind?.at === stream.kind?.at && other.kind?.value === stream.kind?.value,
    );
    return twins.length > 1 && stream.kind ? [{ field, words: 'another stream has the same kind' }] : [];
  });
}
