import type { FaultRoom } from '../../sentence.ts';

/** The database and what is not in it. */
export const storeFaults = {
  DISK_FULL: {
    message: ({ file, why }: { file: string; why: string }) =>
      `${file}: the disk is full or cannot be written (${why}). What was stored before is safe; this was not stored.`,
    hint: 'Make room, then do it again.',
  },
  'DISK_FULL.floor': {
    message: ({ folder, free_mb, floor_mb }: { folder: string; free_mb: number; floor_mb: number }) =>
      `Only ${free_mb} MB are free on the disk of ${folder}; ${floor_mb} MB are kept for what is being recorded. This was not stored.`,
    hint: 'Make room, then do it again.',
  },
  DATABASE_UNREADABLE: {
    message: ({ file, why }: { file: string; why: string }) =>
      `${file}: is no database, or is damaged (${why}). It was left as it is.`,
    hint: 'Put a backup in its place, or name another data folder with --data.',
  },
  DATABASE_BUSY: {
    message: ({ file, why }: { file: string; why: string }) =>
      `${file}: another program held the database for too long (${why}). This was not stored.`,
    hint: 'Do it again; when it stays so, close what else uses the file.',
  },
  DATABASE_NEWER: {
    message: ({ migration }: { migration: string }) =>
      `The database was made by a newer version (it holds "${migration}"); this version would not understand it. It was left as it is.`,
    hint: 'Update Cinderlane, or name another data folder with --data.',
  },
  'LAYOUT_NOT_FOUND.of_import': {
    message: ({ import_id }: { import_id: number }) =>
      `Import ${import_id} has no layout: nothing was read from its files.`,
    hint: 'Start it again with a correction first; the layout is kept once the files were read.',
  },
  REANALYSIS_NOT_FOUND: {
    message: ({ reanalysis_id }: { reanalysis_id: number }) => `There is no re-analysis ${reanalysis_id}.`,
    hint: 'The list of them is current.',
  },
} as const satisfies FaultRoom;
