import type { FaultError } from '../../../shared/fault.ts';
import { radioUnavailable } from './radio-faults.ts';
import { WATCH_MS } from './radio-times.ts';
import type { RadioProblem, SourceState } from './sensor-found.ts';

/** Whether the radio of a machine is there, asked again and again from its first use on: until then nothing is asked of the machine. */
export class RadioWatch {
  problem: RadioProblem | null = null;
  closed = false;
  private readonly ask: () => Promise<void>;
  private asking = false;
  private timer: NodeJS.Timeout | null = null;

  /** @param ask whether the radio is there, and while a search is on, what it hears; it may throw */
  constructor(ask: () => Promise<void>) {
    this.ask = ask;
  }

  state(): SourceState {
    return { ready: this.problem === null, problem: this.problem };
  }

  /** Keeps the problem in view, for whoever asks for the state. @returns what to throw */
  unavailable(problem: RadioProblem): FaultError {
    this.problem = problem;
    return radioUnavailable(problem);
  }

  start(): void {
    this.timer ??= setInterval(() => void this.look(), WATCH_MS).unref();
  }

  async look(): Promise<void> {
    if (this.asking || this.closed) return;
    this.asking = true;
    try {
      await this.ask();
    } catch {
      // The state says what is wrong; the next look finds out whether it has passed.
    } finally {
      this.asking = false;
    }
  }

  close(): void {
    this.closed = true;
    if (this.timer !== null) clearInterval(this.timer);
  }
}
