import { createHash, randomInt, timingSafeEqual } from 'node:crypto';
import { fault, FaultError } from '../../shared/fault.ts';
import type { DeviceRole } from '../../shared/schemas/access.ts';

/** How long a code can be typed. */
const LIFETIME_MS = 120_000;
/** Wrong codes after which the right one is void: 5 in 1,000,000 is the chance of a guess. */
const TRIES = 5;
const DIGITS = 6;

export type CodePurpose = 'pair' | 'confirm';

interface LiveCode {
  digest: Buffer;
  purpose: CodePurpose;
  role: DeviceRole | null;
  expires_ms: number;
  tries_left: number;
}

/**
 * One-time codes that the machine's own screen shows and another device types. At most one lives for each purpose; a new one
 * voids the one before. They are kept in memory only, as digests.
 */
export class PairingCodes {
  readonly #live = new Map<CodePurpose, LiveCode>();
  readonly #now: () => number;

  /** @param now clock, milliseconds since 1970 */
  constructor(now: () => number = Date.now) {
    this.#now = now;
  }

  /** A new code of six digits. @param role what the paired device may do; null for a code that confirms */
  issue(purpose: CodePurpose, role: DeviceRole | null): { code: string; expires_utc: string } {
    const code = String(randomInt(10 ** DIGITS)).padStart(DIGITS, '0');
    const expires_ms = this.#now() + LIFETIME_MS;
    this.#live.set(purpose, { digest: digestOf(code), purpose, role, expires_ms, tries_left: TRIES });
    return { code, expires_utc: new Date(expires_ms).toISOString() };
  }

  /**
   * Takes a code that was typed; a right one is used up.
   * @throws FaultError CODE_REFUSED when it is wrong, too old, used, or tried too often
   */
  redeem(purpose: CodePurpose, typed: string): DeviceRole | null {
    const live = this.#live.get(purpose);
    if (!live || live.expires_ms <= this.#now()) {
      this.#live.delete(purpose);
      throw new FaultError(fault('CODE_REFUSED.none', {}));
    }
    live.tries_left -= 1;
    if (timingSafeEqual(live.digest, digestOf(typed.replace(/[ -]/g, '')))) {
      this.#live.delete(purpose);
      return live.role;
    }
    if (live.tries_left === 0) this.#live.delete(purpose);
    throw new FaultError(fault('CODE_REFUSED.wrong', { tries_left: live.tries_left }));
  }
}

function digestOf(code: string): Buffer {
  return createHash('sha256').update(code).digest();
}
