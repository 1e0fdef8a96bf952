import type { REASONS_EN } from './messages/en/reasons.ts';
import type { ValuesOf } from './messages/sentence.ts';
import type { Values } from './messages/values.ts';
import type { CodedReason } from './reason-shape.ts';

export type { CodedReason, Reason } from './reason-shape.ts';

export type ReasonKey = keyof typeof REASONS_EN;
type ReasonValues<Key extends ReasonKey> = ValuesOf<(typeof REASONS_EN)[Key]>;

/** Makes a reason. Its words are in shared/messages; the values are those that the words name. */
export function because<Key extends ReasonKey>(
  key: Key,
  ...[values]: unknown extends ReasonValues<Key> ? [] : [values: ReasonValues<Key>]
): CodedReason {
  return values === undefined ? { because: key } : { because: key, values: values as Values };
}
