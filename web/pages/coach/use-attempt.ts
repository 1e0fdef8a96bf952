import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import { faultOf } from '../../client.ts';

export interface Attempts {
  /** Why the last attempt failed; null while all is well. */
  fault: Fault | null;
  /** Does the work, then what follows a success; a failure becomes `fault` and nothing follows. */
  attempt: (work: () => Promise<unknown>) => Promise<void>;
}

/**
 * Changes that may fail, with their fault for display.
 * @param then what follows every success, such as reading again
 */
export function useAttempt(then: () => Promise<unknown> = async () => {}): Attempts {
  const [fault, setFault] = useState<Fault | null>(null);
  const attempt = async (work: () => Promise<unknown>) => {
    setFault(null);
    try {
      await work();
      await then();
    } catch (error) {
      setFault(faultOf(error));
    }
  };
  return { fault, attempt };
}
