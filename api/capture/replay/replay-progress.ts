import type { PlayedRepetition } from './plan-replay.ts';

/** A result may begin this long before or after the stretch that its repetition is played in, seconds. */
const LEEWAY_S = 1;

/** Follows a replayed session: which of its stored repetitions have had their result again. */
export class ReplayProgress {
  private readonly repetitions: readonly PlayedRepetition[];
  private readonly logTime: (host_s: number) => number | null;
  private readonly over: number[] = [];

  /** @param logTime a host time on the clock of the played repetitions */
  constructor(repetitions: readonly PlayedRepetition[], logTime: (host_s: number) => number | null) {
    this.repetitions = repetitions;
    this.logTime = logTime;
  }

  /**
   * A result came.
   * @param host_s of its first contact
   * @returns the stored repetition that was played then; null where there is none
   */
  ended(athlete_id: number | null, host_s: number): number | null {
    const at_s = this.logTime(host_s);
    if (at_s === null) return null;
    const played = this.repetitions.find(
      (one) => one.athlete_id === athlete_id && at_s >= one.from_s - LEEWAY_S && at_s <= one.to_s + LEEWAY_S,
    );
    if (!played) return null;
    if (!this.over.includes(played.repetition_id)) this.over.push(played.repetition_id);
    return played.repetition_id;
  }

  /** What the view is told; null where no session is played. */
  state(): { repetition_ids: number[]; total: number } | null {
    if (this.repetitions.length === 0) return null;
    return { repetition_ids: [...this.over], total: this.repetitions.length };
  }
}
