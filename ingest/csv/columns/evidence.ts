/** One thing that was understood about a file, why, and how sure that is. Every one can be corrected by a layout. */
export interface Evidence {
  /** What it is about, e.g. 'delimiter', 'time unit', 'acceleration unit'. */
  about: string;
  decided: string;
  because: string;
  /** told: by the user or a layout; written: the file says so; measured: the data shows it; assumed: the usual case. */
  source: 'told' | 'written' | 'measured' | 'assumed';
}
