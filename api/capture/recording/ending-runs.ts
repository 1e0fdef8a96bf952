import { type Notice, notice } from '../../../shared/notice.ts';
import type { CaptureRun } from './capture-run.ts';
import type { PacketLogWriter } from './packet-log-writer.ts';

/** Captures whose sensors are stopped, and whose last packets wait for room on the disk. */
export class EndingRuns {
  private runs: CaptureRun[] = [];
  private readonly say: (what: Notice) => void;

  constructor(say: (what: Notice) => void) {
    this.say = say;
  }

  get waiting_packets(): number {
    return this.runs.reduce((sum, run) => sum + run.waiting_packets, 0);
  }

  get logs(): PacketLogWriter[] {
    return this.runs.flatMap((run) => run.sessions).map((session) => session.log);
  }

  add(run: CaptureRun): void {
    this.runs.push(run);
  }

  has(run: CaptureRun): boolean {
    return this.runs.includes(run);
  }

  /** Closes those whose packets are all on disk. @param discard true gives up what waits */
  finish(discard: boolean): void {
    this.runs = this.runs.filter((run) => {
      const packets = run.waiting_packets;
      if (!run.finish(discard)) return true;
      if (run.record.kind === 'live')
        this.say(discard && packets > 0 ? notice('given_up', { packets }) : notice('ended'));
      return false;
    });
  }
}
