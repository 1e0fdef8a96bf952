import type { FaultRoom } from '../../sentence.ts';

/** Requests that cannot be met. */
export const requestFaults = {
  REPETITION_HAS_RECORDING: {
    message: ({ repetition_id }: { repetition_id: number }) =>
      `Repetition ${repetition_id} has a recording already; it is not overwritten. Nothing was stored.`,
    hint: 'Leave repetition_id out to add a repetition, or delete the old one first (it can be restored).',
  },
  'REQUEST_INVALID.form': {
    message: ({ why }: { why: string }) => `form: ${why}. Nothing was stored.`,
    hint: 'The fields are described at /api/docs.',
  },
  'REQUEST_INVALID.preview': {
    message: ({ why }: { why: string }) => `form: ${why}. Nothing was read.`,
    hint: 'The fields are described at /api/docs.',
  },
  ORIGIN_REFUSED: {
    message: ({ origin, host }: { origin: string | null; host: string }) =>
      `A request from ${origin ?? 'a page'} to "${host}" was refused: it did not come from Cinderlane's own page.`,
    hint: 'Open the address that the server printed; start it with --host NAME to allow another name.',
  },
  VIEW_NOT_BUILT: {
    message: 'The view has not been built; only the API is here.',
    hint: 'Run npm run build, then start the server again. The API is described at /api/docs.',
  },
  'RECORDING_NOT_FOUND.of_import': {
    message: ({ import_id, side }: { import_id: number; side: string }) =>
      `Import ${import_id} has no file of side "${side}".`,
    hint: 'Its files are listed with the import.',
  },
  IMPORT_NOT_FAILED: {
    message: ({ import_id, state }: { import_id: number; state: string }) =>
      `Import ${import_id} is ${state}; only a failed or cancelled one can be started again.`,
    hint: 'To use other settings for a finished one, analyse its repetitions again.',
  },
} as const satisfies FaultRoom;
