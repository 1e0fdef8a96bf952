import type { FaultRoom } from '../../sentence.ts';

/** What goes wrong in the view itself. */
export const viewFaults = {
  VIEW_FAILED: {
    message: ({ why }: { why: string }) => `This page failed: ${why}`,
    hint: 'Reload the page. Nothing stored was changed.',
  },
  SERVER_UNREACHABLE: {
    message: 'The Cinderlane server did not answer.',
    hint: 'Check that it is running and that this device is on the same network, then try again.',
  },
  ANSWER_UNREADABLE: {
    message: ({ status }: { status: number }) => `The server answered ${status} without saying why.`,
    hint: "Look at the server's output.",
  },
  'IMPORT_CANCELLED.sending': {
    message: 'Sending was cancelled. Nothing was stored.',
    hint: '',
  },
  'LAYOUT_UNREADABLE.no_json': {
    message: ({ file }: { file: string }) =>
      `${file}: found no JSON; expected a layout as Export writes it. Nothing was kept.`,
    hint: 'Choose the file that was exported.',
  },
} as const satisfies FaultRoom;
