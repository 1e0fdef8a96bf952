/** What the demo's group says of itself; by it a club is known to be the demo, also after a restart. */
export const DEMO_NOTES = 'An invented club: nobody here exists, and the signals are simulated.';
