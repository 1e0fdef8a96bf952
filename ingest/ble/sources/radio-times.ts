/** How long the radio of a machine is waited for, milliseconds; the same whatever the library. */
export const CALL_TIMEOUT_MS = 4000;
export const CONNECT_TIMEOUT_MS = 12_000;
export const BOND_TIMEOUT_MS = 30_000;
/** How often it is asked whether the radio is there, and what it hears. */
export const WATCH_MS = 1000;
/** Several advertising intervals of the slowest sensors, seconds. */
export const LISTEN_S = 10;
