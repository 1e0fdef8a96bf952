import type { Values } from './messages/values.ts';

/** What a running part has to say, as it is made and kept: a key of shared/messages/en/notices.ts and values. */
export interface CodedNotice {
  notice: string;
  /** Left out where the notice needs none. */
  values?: Values;
}

/** Words come from browsers, libraries and older versions; `Speech.notice` puts every notice into words. */
export type Notice = string | CodedNotice;
