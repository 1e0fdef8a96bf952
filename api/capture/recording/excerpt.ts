/** A stretch of a packet log, as a file of its own. */
export interface Excerpt {
  file_name: string;
  bytes: Uint8Array;
}
