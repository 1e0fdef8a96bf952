/** Columns of a list of imports that name a file. */
export const FILE_COLUMNS = ['left', 'right', 'file'] as const;

/** One import to be done. */
export interface ImportLine {
  /** Names it in the output. */
  label: string;
  files: Partial<Record<(typeof FILE_COLUMNS)[number], string>>;
  athlete: string;
  date: string;
  form: Record<string, string | undefined>;
}
