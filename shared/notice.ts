import type { CodedNotice, Notice } from './notice-shape.ts';
import type { NOTICES_EN } from './messages/en/notices.ts';
import type { ValuesOf } from './messages/sentence.ts';
import type { Values } from './messages/values.ts';

export type { CodedNotice, Notice } from './notice-shape.ts';

export type NoticeKey = keyof typeof NOTICES_EN;
type NoticeValues<Key extends NoticeKey> = ValuesOf<(typeof NOTICES_EN)[Key]>;

/** Makes a notice. Its words are in shared/messages; the values are those that the words name, other notices and faults among them. */
export function notice<Key extends NoticeKey>(
  key: Key,
  ...[values]: unknown extends NoticeValues<Key> ? [] : [values: NoticeValues<Key>]
): CodedNotice {
  return values === undefined ? { notice: key } : { notice: key, values: values as Values };
}

/** Nothing to say. */
export const SILENT: Notice = '';
