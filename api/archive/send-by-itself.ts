export interface SendingSchedule {
  every_minutes: number;
  /** Sends once; throws with what went wrong. In a process of its own, so that the server goes on answering. */
  send: (signal: AbortSignal) => Promise<void>;
  tell: (line: string) => void;
}

/**
 * Sends to an archive at once and then every so often. Being out of reach is usual on a field: it is told once, and once more when it
 * works again. @returns ends it
 */
export function sendByItself(schedule: SendingSchedule): () => Promise<void> {
  const stopping = new AbortController();
  const round = new SendingRound(schedule, stopping.signal);
  const timer = setInterval(() => void round.run(), schedule.every_minutes * 60_000).unref();
  void round.run();
  return async () => {
    clearInterval(timer);
    stopping.abort();
    await round.ended;
  };
}

/** One sending after the other; one that takes long is not begun a second time beside it. */
export class SendingRound {
  readonly #schedule: SendingSchedule;
  readonly #signal: AbortSignal;
  #trouble: string | null = null;
  #busy: Promise<void> | null = null;

  constructor(schedule: SendingSchedule, signal: AbortSignal) {
    this.#schedule = schedule;
    this.#signal = signal;
  }

  /** Resolves when nothing is being sent. */
  get ended(): Promise<void> {
    return this.#busy ?? Promise.resolve();
  }

  run(): Promise<void> {
    this.#busy ??= this.#send().finally(() => {
      this.#busy = null;
    });
    return this.#busy;
  }

  async #send(): Promise<void> {
    try {
      await this.#schedule.send(this.#signal);
      if (this.#trouble !== null) this.#schedule.tell('archive: reached again, everything is sent');
      this.#trouble = null;
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      if (!this.#signal.aborted && why !== this.#trouble) this.#schedule.tell(`archive: ${why}`);
      this.#trouble = why;
    }
  }
}
