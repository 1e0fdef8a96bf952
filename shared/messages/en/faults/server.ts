import type { FaultRoom } from '../../sentence.ts';

/** Starting the server. */
export const serverFaults = {
  SERVER_RUNNING: {
    message: ({ folder, address }: { folder: string; address: string }) =>
      `A server works on ${folder} already, at ${address}; two would do the same work twice.`,
    hint: 'Open that address, or stop that server first.',
  },
  'SERVER_RUNNING.starting': {
    message: ({ folder }: { folder: string }) =>
      `Another Cinderlane holds ${folder} and is starting or stopping; two would do the same work twice.`,
    hint: 'Wait a moment, or stop that one first.',
  },
  FOLDER_NOT_WRITABLE: {
    message: ({ folder, why }: { folder: string; why: string }) =>
      `${folder} cannot be written (${why}). The server was not started; nothing was changed.`,
    hint: 'Give this user the right to write there, or name another folder with --data.',
  },
  'READ_ONLY.disk': {
    message: ({ folder, why }: { folder: string; why: string }) =>
      `The disk of ${folder} is full or cannot be written (${why}), so Cinderlane shows what is stored and changes nothing.`,
    hint: 'Make room on that disk, 200 MB or more, then stop Cinderlane and start it again.',
  },
  'READ_ONLY.folder': {
    message: ({ folder, why }: { folder: string; why: string }) =>
      `${folder} cannot be written (${why}), so Cinderlane shows what is stored and changes nothing.`,
    hint: 'Give the user that runs Cinderlane the right to write there, or copy the folder to where it may and name that with --data; then start it again.',
  },
  'READ_ONLY.held': {
    message: ({ folder }: { folder: string }) =>
      `Another program holds the database in ${folder}, so Cinderlane shows what is stored and changes nothing.`,
    hint: 'Close what else uses the file, such as a copying or syncing program, then stop Cinderlane and start it again.',
  },
  'READ_ONLY.newer': {
    message: ({ migration }: { migration: string }) =>
      `The database was made by a newer version (it holds "${migration}"), so this version shows what it understands of it and changes nothing.`,
    hint: 'Update Cinderlane, then start it again.',
  },
  'INTERNAL.start': {
    message: ({ error_id, folder }: { error_id: string; folder: string }) =>
      `The server could not be started, by a fault of the program. What is stored is safe. errors.log in ${folder} keeps it under ${error_id}.`,
    hint: 'Start it once more; if it stays so, send that line of errors.log to whoever looks after the program. It holds no names.',
  },
  'OPTION_UNREADABLE.host': {
    message: ({ host }: { host: string }) =>
      `--host is "${host}", which is no address of this machine; the server was not started.`,
    hint: 'Leave it out for this machine only, or use 0.0.0.0 for every address of it.',
  },
  'OPTION_UNREADABLE.reserved_port': {
    message: ({ port }: { port: number }) =>
      `Port ${port} is kept for the system and not open to this user; the server was not started.`,
    hint: 'Name one from 1024 on with --port.',
  },
  'DATABASE_UNREADABLE.empty': {
    message: ({ file }: { file: string }) =>
      `${file} is empty, but what lies beside it shows that a database was here. It was left as it is.`,
    hint: 'Put a backup in its place. To begin anew, move the folder away first.',
  },
  SERVER_PORT_TAKEN: {
    message: ({ port }: { port: number }) => `Port ${port} is in use by another program; the server was not started.`,
    hint: ({ option }: { option: string }) => `Name another one with ${option}, or ${option} 0 for any free one.`,
  },
  CERTIFICATE_UNREADABLE: {
    message: ({ cert_file, key_file, why }: { cert_file: string; key_file: string; why: string }) =>
      `${cert_file} and ${key_file} are not a certificate and its key: ${why}. The server was not started.`,
    hint: 'Both must be PEM files that belong together. Without them, --lan makes a certificate of its own.',
  },
  'FILE_NOT_FOUND.certificate': {
    message: ({ file }: { file: string }) => `${file} cannot be read. The server was not started.`,
    hint: 'Name a certificate and its key, both as PEM files.',
  },
  'OPTION_MISSING.certificate': {
    message: '--tls-cert and --tls-key belong together, and need --lan or --https-port. The server was not started.',
    hint: 'Without both, --lan makes a certificate of its own.',
  },
  'OPTION_UNREADABLE.port': {
    message: ({ option, text }: { option: string; text: string }) =>
      `${option} is "${text}"; it must be a whole number from 0 to 65535. Nothing was done.`,
    hint: ({ usual }: { usual: number }) => `Leave it out for ${usual}.`,
  },
} as const satisfies FaultRoom;
