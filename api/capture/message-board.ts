import type { Notice } from '../../shared/notice.ts';
import type { CaptureState } from '../../shared/schemas/capture.ts';
import { nowUtc } from '../store/store.ts';

const MOST = 50;

/** What happened, for the live page: the newest first, as many as anybody reads. */
export class MessageBoard {
  messages: CaptureState['messages'] = [];

  readonly say = (text: Notice): void => {
    this.messages = [{ utc: nowUtc(), text }, ...this.messages].slice(0, MOST);
  };
}
