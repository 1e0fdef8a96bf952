/** Lets a few through at a time, in the order in which they came. */
export class Slots {
  private free: number;
  private readonly waiting: (() => void)[] = [];

  constructor(size: number) {
    this.free = size;
  }

  /** Waits for a turn; the answer gives it back, once, however often it is called. */
  async acquire(): Promise<() => void> {
    if (this.free > 0) this.free -= 1;
    else await new Promise<void>((turn) => this.waiting.push(turn));
    let held = true;
    return () => {
      if (!held) return;
      held = false;
      const next = this.waiting.shift();
      if (next) next();
      else this.free += 1;
    };
  }
}
