import type { FaultRoom } from '../../sentence.ts';

/** A programme's archive. */
export const archiveFaults = {
  'OPTION_UNREADABLE.archive': {
    message: ({ option }: { option: string }) => `${option} is no address of a PostgreSQL database. Nothing was done.`,
    hint: 'Write it as postgres://user@host/database; the password may stand in PGPASSWORD or in the file that PGPASSFILE names.',
  },
  'OPTION_UNREADABLE.action': {
    message: ({ found, words }: { found: string; words: string[] }, say) =>
      `"${found}" is nothing that can be done here; it must be ${say.list(words, 'or')}. Nothing was done.`,
    hint: 'Write it behind the command, such as: cinderlane archive push.',
  },
  'FILE_NOT_FOUND.data_folder': {
    message: ({ folder }: { folder: string }) => `${folder}: there is no such folder. Nothing was done.`,
    hint: 'Name the folder of the database with --data; for a new machine, make it first.',
  },
  'FILE_NOT_FOUND.certificate': {
    message: ({ file }: { file: string }) => `${file}: there is no certificate of this name. Nothing was done.`,
    hint: 'Name the file of the authority that signed the server’s certificate with sslrootcert.',
  },
  ARCHIVE_UNREACHABLE: {
    message: ({ host, why }: { host: string; why: string }) =>
      `The archive at ${host} cannot be reached (${why}). What was sent before is safe there; everything is safe here.`,
    hint: 'Do it again when there is a network: it goes on where it was.',
  },
  ARCHIVE_NOT_ENCRYPTED: {
    message: ({ host, mode }: { host: string; mode: string }) =>
      `sslmode is ${mode}; ${host} is not this machine, so only an encrypted connection with a checked certificate is made. Nothing was sent.`,
    hint: 'Leave sslmode out or set it to verify-full; name your own authority with sslrootcert.',
  },
  ARCHIVE_REFUSED: {
    message: ({ host, why }: { host: string; why: string }) =>
      `The archive at ${host} does not let this user in (${why}). Nothing was done.`,
    hint: 'Check user and password; who keeps the archive gives them out.',
  },
  'ARCHIVE_REFUSED.rights': {
    message: ({ host, why }: { host: string; why: string }) =>
      `The archive at ${host} does not let this user do that (${why}). Nothing was changed.`,
    hint: 'Ask who keeps the archive.',
  },
  'ARCHIVE_REFUSED.no_club': {
    message: ({ host }: { host: string }) => `The user at ${host} is no club, so there is nothing to exchange.`,
    hint: 'Use the address that was given out for the club.',
  },
  ARCHIVE_NOT_MADE: {
    message: ({ host, why }: { host: string; why: string }) =>
      `The database at ${host} holds no archive (${why}). Nothing was done.`,
    hint: 'Who keeps it makes one with: cinderlane archive init --archive ADDRESS.',
  },
  ARCHIVE_OLDER: {
    message: ({ host }: { host: string }) =>
      `The archive at ${host} has an older shape than this version works with. Nothing was done.`,
    hint: 'Who keeps it brings it up to date with: cinderlane archive init --archive ADDRESS.',
  },
  ARCHIVE_NEWER: {
    message: ({ migration }: { migration: string }) =>
      `The archive has a newer shape (it holds "${migration}") than this version understands. Nothing was done.`,
    hint: 'Update Cinderlane on this machine.',
  },
  ARCHIVE_NAME_TAKEN: {
    message: ({ name, role_name }: { name: string; role_name: string }) =>
      `"${name}" cannot be let in: the archive's server knows ${role_name} already. Nothing was changed.`,
    hint: 'Choose another name.',
  },
  'ARCHIVE_ANOTHER.club': {
    message: ({ folder }: { folder: string }) =>
      `${folder} was exchanged with another archive or another club before. Nothing was done.`,
    hint: 'Use that address, or name another data folder with --data.',
  },
  ARCHIVE_KEY_DIFFERS: {
    message: 'The passphrase is not the one that sealed this club’s names in the archive. Nothing was exchanged.',
    hint: 'Give the passphrase of the first exchange; without one, names stay sealed and everything else is exchanged.',
  },
  NORMS_NOT_FOUND: {
    message: 'The programme has published no norms.',
    hint: 'Who keeps it publishes them with: cinderlane archive publish.',
  },
  'NORMS_NOT_FOUND.here': {
    message: 'This club has fetched no norms of a programme.',
    hint: 'Fetch them with: cinderlane archive norms --archive ADDRESS.',
  },
  'NORMS_NOT_FOUND.unknown': {
    message: ({ name }: { name: string }) =>
      `Of ${name} sex or year of birth are not known, so there is nobody to stand beside.`,
    hint: 'Nothing has to be entered for this; without it the athlete is compared with themselves alone.',
  },
  'NORMS_UNTRUSTED.key': {
    message: ({ known, found }: { known: string; found: string }) =>
      `The norms are signed with key ${found}; this club trusts ${known}. They were not taken.`,
    hint: 'Ask who keeps the archive whether the key was changed, and by whom.',
  },
  'NORMS_UNTRUSTED.signature': {
    message: 'The norms were changed after they were signed. They were not taken.',
    hint: 'Tell who keeps the archive.',
  },
  'NORMS_UNTRUSTED.few': {
    message: ({ people, fewest }: { people: number; fewest: number }) =>
      `The norms tell of a group of ${people}; fewer than ${fewest} people could be recognised. They were not taken.`,
    hint: 'Tell who keeps the archive.',
  },
  'FILE_NOT_FOUND.norms_key': {
    message: ({ file }: { file: string }) => `${file} is no Ed25519 key. Nothing was published.`,
    hint: 'Name the programme’s key, or a new file to have one made.',
  },
  'TOOL_MISSING.duckdb': {
    message: ({ name }: { name: string }) =>
      `This asks the files with DuckDB, which is larger than this program and not installed (${name}). Nothing was done.`,
    hint: ({ variable, name }: { variable: string; name: string }) =>
      `npm install --prefix FOLDER ${name}, then set ${variable} to that folder. Any other engine that reads Parquet can read the files as well.`,
  },
  QUANTITY_UNKNOWN: {
    message: ({ quantity }: { quantity: string }) => `"${quantity}" is no quantity of a contact. Nothing was done.`,
    hint: 'The columns of contacts in dictionary.csv name them, such as contact_time_ms.',
  },
  'FILE_NOT_FOUND.archive_files': {
    message: ({ folder }: { folder: string }) => `${folder} holds no files of an archive. Nothing was done.`,
    hint: 'Write them with: cinderlane archive parquet --files FOLDER.',
  },
  'FILE_NOT_FOUND.sql': {
    message: ({ file }: { file: string }) => `${file}: there is no file of this name. Nothing was done.`,
    hint: 'Name a file with one SQL query over the views repetitions and contacts.',
  },
  RUN_NOT_FOUND: {
    message: ({ run }: { run: string }) => `The archive has no run "${run}". Nothing was done.`,
    hint: 'Those that there are: cinderlane work status.',
  },
  REPETITION_LEFT_ARCHIVE: {
    message: 'The repetition, or its recording, is no longer in the archive.',
    hint: 'Somebody was erased, or does not agree any longer: there is nothing to do again.',
  },
  'REPETITION_LEFT_ARCHIVE.unknown': {
    message: ({ repetition_id, n }: { repetition_id: string; n: number }) =>
      `The archive has no repetition ${repetition_id}${n > 1 ? ` (and ${n - 1} others of the list)` : ''}. Nothing was done.`,
    hint: 'The column repetition_uuid of the Parquet files or of an export names those that there are.',
  },
  'REPETITION_LEFT_ARCHIVE.export': {
    message: 'Somebody of this part was erased, or does not agree any longer: its files were deleted.',
    hint: 'Have what failed done again: the part comes back without them.',
  },
  RUN_KIND_DIFFERS: {
    message: ({ run }: { run: string }) =>
      `Run ${run} is of another kind: this cannot be done with it. Nothing was done.`,
    hint: 'A re-analysis is accepted or taken back; an agreement study or an export is collected.',
  },
  RUN_NOT_ENDED: {
    message: ({ run, missing }: { run: string; missing: number }) =>
      `Run ${run} has ${missing} parts that are not done. Nothing was written.`,
    hint: 'Wait for the workers, or have what failed done again: cinderlane work retry.',
  },
  CLUB_NOT_FOUND: {
    message: ({ name, known }: { name: string; known: string[] }, say) =>
      `The archive has no club "${name}". It has: ${say.list(known)}. Nothing was done.`,
    hint: 'Write the name as it was admitted.',
  },
  ARCHIVE_DAMAGED: {
    message: ({ what }: { what: string }) =>
      `${what} came from the archive with other bytes than were sent. It was not stored.`,
    hint: 'Tell who keeps the archive; a machine of the club that still has it sends it anew once it was taken out there.',
  },
} as const satisfies FaultRoom;
