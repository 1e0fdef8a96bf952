/** The name parts of one file: entities in the order that BIDS prescribes. */
export interface BidsName {
  sub: string;
  ses: string;
  task: string;
  tracksys: string;
  run: number;
}

/** The same as others may write it: session and run need not be there. */
export type ReadBidsName = Omit<BidsName, 'ses' | 'run'> & { ses: string | null; run: string | null };

/** A label may hold letters, digits and +; anything else goes. Source: BIDS specification, common principles. */
export function label(text: string): string {
  const clean = text.replace(/[^0-9a-zA-Z+]/g, '');
  return clean === '' ? 'x' : clean;
}

/** `sub-A_ses-B_task-C_tracksys-D_run-1`. */
export function fileStem({ sub, ses, task, tracksys, run }: BidsName): string {
  return `sub-${sub}_ses-${ses}_task-${task}_tracksys-${tracksys}_run-${run}`;
}

export function folderOf({ sub, ses }: Pick<BidsName, 'sub' | 'ses'>): string {
  return `sub-${sub}/ses-${ses}`;
}

/** Reads the entities of a file name; null when it is not one of a motion recording. */
export function parseStem(name: string): ReadBidsName | null {
  const found =
    /^sub-([0-9a-zA-Z+]+)(?:_ses-([0-9a-zA-Z+]+))?_task-([0-9a-zA-Z+]+)_tracksys-([0-9a-zA-Z+]+)(?:_acq-[0-9a-zA-Z+]+)?(?:_run-([0-9]+))?_motion\.tsv$/.exec(
      name,
    );
  if (!found) return null;
  const [, sub, ses, task, tracksys, run] = found;
  return { sub, ses: ses ?? null, task, tracksys, run: run ?? null };
}

/** A tab-separated table as BIDS wants it: header row, `n/a` for what is missing, LF. */
export function tsv(columns: string[], rows: (string | number | null | undefined)[][]): string {
  const cell = (value: string | number | null | undefined): string => {
    if (value === null || value === undefined || value === '' || Number.isNaN(value)) return 'n/a';
    return String(value).replace(/[\t\r\n]+/g, ' ');
  };
  return `${[columns, ...rows].map((row) => row.map(cell).join('\t')).join('\n')}\n`;
}
