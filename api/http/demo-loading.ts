import type { DemoState } from '../../shared/schemas/demo.ts';

/** How far the demo is loaded, told by whoever loads it. */
export class DemoLoading {
  private loading: DemoState['loading'] = null;

  tell(done: number, total: number): void {
    this.loading = done < total ? { done, total } : null;
  }

  /** Loading has ended, whether everything is there or not. */
  ended(): void {
    this.loading = null;
  }

  now(): DemoState['loading'] {
    return this.loading;
  }
}
