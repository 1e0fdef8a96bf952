import type { Notice } from '../../notice-shape.ts';
import type { DescriptionRemark } from '../../description-remark.ts';
import type { Speech } from '../say.ts';
import type { PhraseRoom } from '../sentence.ts';

/** What stands there, as JSON writes it; null where it is too long to be repeated. */
type Found = { found: string | null };
const found = (text: string | null) => (text === null ? '' : ` (found: ${text})`);
/** Names of JSON's types, as the schema has them. */
const TYPES: Record<string, string> = {
  object: 'a group of fields in { }',
  array: 'a list in [ ]',
  string: 'a text in quotes',
  number: 'a number',
  integer: 'a whole number',
  boolean: 'true or false',
  null: 'null',
};

/** What is to be said of a place in a stream description. Each goes on from the name of the place. */
export const DESCRIPTION_REMARKS_EN = {
  // What the form asks for
  remark_not_json: ({ why }: { why: string }) => `is not JSON: ${why}`,
  remark_and: ({ first, second }: { first: Notice; second: Notice }, say) =>
    `${say.notice(first)}; ${say.notice(second)}`,
  remark_missing: ({ field }: { field: string }) => `"${field}" is missing`,
  remark_no_such_field: 'there is no such field; is it misspelt, or in the wrong place?',
  remark_one_of: ({ allowed, found: text }: { allowed: readonly string[] } & Found) =>
    `must be one of ${allowed.join(', ')}${found(text)}`,
  remark_type: ({ type, found: text }: { type: string } & Found) => `must be ${TYPES[type] ?? type}${found(text)}`,
  remark_uuid: ({ found: text }: Found) =>
    `must be a UUID of 32 hexadecimal digits in lower case, in groups of 8-4-4-4-12; a 16-bit number 180f is 0000180f-0000-1000-8000-00805f9b34fb${found(text)}`,
  remark_bytes: ({ found: text }: Found) =>
    `must be bytes of two hexadecimal digits in lower case with one space between, such as "01 e8 03"${found(text)}`,
  remark_short_name: ({ found: text }: Found) =>
    `must be a short name of lower-case letters, digits and hyphens, at most 40${found(text)}`,
  remark_six_digits: ({ found: text }: Found) => `must be six digits${found(text)}`,
  remark_form: ({ found: text }: Found) => `does not have one of the forms allowed here${found(text)}`,
  remark_least_entries: ({ least }: { least: number }, say) =>
    `needs at least ${least} ${say.plural(least, { one: 'entry', other: 'entries' })}`,
  remark_most_entries: ({ most }: { most: number }) => `may have at most ${most} entries`,
  remark_empty: 'must not be empty',
  remark_most_characters: ({ most }: { most: number }) => `may have at most ${most} characters`,
  remark_least: ({ least, found: text }: { least: number } & Found, say) =>
    `must be ${say.number(least)} or more${found(text)}`,
  remark_most: ({ most, found: text }: { most: number } & Found, say) =>
    `must be ${say.number(most)} or less${found(text)}`,
  remark_above: ({ above, found: text }: { above: number } & Found, say) =>
    `must be more than ${say.number(above)}${found(text)}`,

  // What does not fit together
  remark_counter_or_stamp: 'a counter or a time stamp is needed: losses cannot be told without one of them',
  remark_exactly_one: ({ name, count, why }: { name: string; count: number; why: Notice }, say) =>
    `must have exactly one ${name} (header and trailer together, found ${say.number(count)}), since ${say.notice(why)}`,
  remark_has_one_but: ({ name, why }: { name: string; why: Notice }, say) => `has a ${name}, but ${say.notice(why)}`,
  remark_is_null: ({ place }: { place: string }) => `${place} is null`,
  remark_is_given: ({ place }: { place: string }) => `${place} is given`,
  remark_samples_from: '/packet/samples says where the number of samples is from',
  remark_unsigned: ({ field, type }: { field: string; type: string }) =>
    `${field} must be an unsigned integer, not ${type}`,
  remark_for_skip_only: 'is for skip only',
  remark_count_in_trailer: 'cannot hold sample_count: it must be known before the samples are read',
  remark_more_samples: ({ samples, most }: { samples: number; most: number }) =>
    `is ${samples}, more than /packet/max_samples ${most}`,
  remark_signed_differences: 'differences must be signed integers of an integer channel',
  remark_wider: ({ type, than }: { type: string; than: string }) => `${type} is wider than ${than}`,
  remark_packed_beside_whole: ({ types }: { types: readonly string[] }) =>
    `types of 4 and 12 bits cannot stand beside types of whole bytes in one sample (${types.join(', ')})`,
  remark_channel_twice: 'names a channel twice',
  remark_main_channels: ({ count }: { count: number }) =>
    `has ${count} of the 3 acc channels; the main packet must carry all three`,
  remark_gyr_channels: ({ count, wanted }: { count: number; wanted: boolean }) =>
    `has ${count} of the 3 gyr channels; /gyr ${wanted ? 'needs all' : 'is null'}`,
  remark_gyr_all_or_none: 'must carry all three gyr channels or none',
  remark_kind_needed: 'packets of one characteristic are told apart by a byte: each of its streams needs a kind',
  remark_kind_twice: 'another stream has the same kind',
  remark_mirror: 'must turn the axes (each of x, y, z once, right-handed); a mirror image is not allowed',
  remark_twice: ({ name }: { name: string }) => `has a ${name} twice`,
  remark_full_above_empty: ({ empty_v }: { empty_v: number }, say) =>
    `must be more than empty_v (${say.number(empty_v)})`,
  remark_battery_missing: '"battery" is missing: it says what the field battery_volts means',
  remark_code_without_bonding: 'is of use only where bonding is "with_code"',

  // What is allowed, but will cost something
  remark_short_counter: ({ rate_hz, wrap_s, stall_s }: { rate_hz: number; wrap_s: number; stall_s: number }, say) =>
    `at ${say.number(rate_hz)} Hz the counter begins again every ${say.number(wrap_s, 2)} s, sooner than a link may stall (${say.number(stall_s)} s), and there is no time stamp. Packets after a stall are held back until their arrival tells how often it did; where packets are lost in the stall as well, a stretch may be left out. A wider counter or a time stamp would mend it.`,
  remark_by_arrival:
    'these packets carry no time stamp, so they are put together with the others by their arrival, to some milliseconds.',
  remark_long_packet: ({ samples, bytes, most }: { samples: number; bytes: number; most: number }) =>
    `${samples} samples make a packet of ${bytes} bytes; a notification carries at most ${most}.`,
  remark_small_mtu: ({ bytes, needed, mtu }: { bytes: number; needed: number; mtu: number }) =>
    `a packet may have ${bytes} bytes, for which an MTU of ${needed} is needed, not ${mtu}.`,
} as const satisfies PhraseRoom;

/** Remarks in a row. @param whole what the description itself is called, where a remark is of no place in it */
export function remarksInWords(remarks: readonly DescriptionRemark[], whole: string, say: Speech): string {
  return remarks.map(({ field, words }) => `${field || whole} ${say.notice(words)}`).join('; ');
}
