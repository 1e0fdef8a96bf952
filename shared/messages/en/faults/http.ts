import type { FaultRoom } from '../../sentence.ts';

/** What is wrong with one field of a request. */
export type RequestProblem =
  | { kind: 'missing' | 'unknown'; field: string }
  | { kind: 'word'; field: string; words: string[] }
  | { kind: 'other'; field: string; why: string };

function problemText(problem: RequestProblem): string {
  switch (problem.kind) {
    case 'missing':
      return `"${problem.field}" is missing`;
    case 'unknown':
      return `"${problem.field}" is not a known field`;
    case 'word':
      return `"${problem.field}" must be one of ${problem.words.join(', ')}`;
    case 'other':
      return `"${problem.field || 'it'}" ${problem.why}`;
  }
}

/** Requests and the server itself. */
export const httpFaults = {
  ROUTE_NOT_FOUND: {
    message: ({ method, path }: { method: string; path: string }) => `There is nothing at ${method} ${path}.`,
    hint: 'The addresses are listed at /api/docs.',
  },
  'REQUEST_INVALID.fields': {
    message: ({ part, field, problems }: { part: string; field: string; problems: RequestProblem[] }) =>
      `${part}${field ? `, field "${field}"` : ''}: ${problems.map(problemText).join('; ')}. Nothing was stored.`,
    hint: 'The expected fields are described at /api/docs.',
  },
  'REQUEST_INVALID.other': {
    message: ({ why }: { why: string }) => `${why}. Nothing was stored.`,
    hint: 'See /api/docs.',
  },
  UPLOAD_TOO_LARGE: {
    message: ({ why }: { why: string }) => `${why}. Nothing was stored.`,
    hint: 'See /api/docs.',
  },
  'PACKET_UNREADABLE.batch': {
    message: ({ sensor_id, damaged, bytes }: { sensor_id: string; damaged: number; bytes: number }) =>
      `A batch of packets of sensor ${sensor_id}: ${damaged} of ${bytes} bytes are no whole record. None of it was taken.`,
    hint: 'The form of a record is that of a packet log: length, kind, arrival, payload, CRC-32.',
  },
  'REQUEST_INVALID.too_many_sensors': {
    message: ({ most }: { most: number }) => `${most} sensors are held by browsers already; this one was not taken.`,
    hint: 'Close live pages that are not needed; what they held is let go after some seconds.',
  },
  'INTERNAL.request': {
    message: 'The server failed at this request. What was stored before is safe.',
    hint: "The server's output says more; trying again does no harm.",
  },
} as const satisfies FaultRoom;
