/**
 * Sent while a field screen listens: `changed` when its view is to be asked for again, `beat` in between.
 * Between two beats, ms: a device that hears none for three of them has lost the connection.
 */
export const FIELD_BEAT_MS = 5000;
