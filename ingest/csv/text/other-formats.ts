/** Files that are no text, by their first bytes, and what to do about them. */
interface Format {
  /** Its short name, told in full by the catalogue of messages. */
  format: string;
  /** What helps: the last word of the fault FILE_NOT_TEXT's sentence. */
  to_do: 'unpack' | 'export' | 'printed' | 'write_table' | 'save_sheet' | 'picture' | 'film';
  /** Bytes the file begins with; at `at` where not at its beginning. */
  bytes: number[];
  at?: number;
}

const latin = (text: string) => [...text].map((letter) => letter.charCodeAt(0));

const FORMATS: Format[] = [
  { format: 'bzip2', to_do: 'unpack', bytes: latin('BZh') },
  { format: 'xz', to_do: 'unpack', bytes: [0xfd, 0x37, 0x7a, 0x58, 0x5a, 0] },
  { format: 'zstandard', to_do: 'unpack', bytes: [0x28, 0xb5, 0x2f, 0xfd] },
  { format: '7-zip', to_do: 'unpack', bytes: [0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c] },
  { format: 'rar', to_do: 'unpack', bytes: latin('Rar!') },
  { format: 'tar', to_do: 'unpack', bytes: latin('ustar'), at: 257 },
  {
    format: 'pdf',
    to_do: 'printed',
    bytes: latin('%PDF-'),
  },
  { format: 'sqlite', to_do: 'export', bytes: latin('SQLite format 3') },
  { format: 'parquet', to_do: 'export', bytes: latin('PAR1') },
  { format: 'arrow', to_do: 'export', bytes: latin('ARROW1') },
  { format: 'hdf5', to_do: 'export', bytes: [0x89, 0x48, 0x44, 0x46] },
  {
    format: 'matlab',
    to_do: 'write_table',
    bytes: latin('MATLAB 5.0'),
  },
  {
    format: 'xls',
    to_do: 'save_sheet',
    bytes: [0xd0, 0xcf, 0x11, 0xe0],
  },
  { format: 'c3d', to_do: 'export', bytes: [0x02, 0x50] },
  {
    format: 'png',
    to_do: 'picture',
    bytes: [0x89, 0x50, 0x4e, 0x47],
  },
  {
    format: 'jpeg',
    to_do: 'picture',
    bytes: [0xff, 0xd8, 0xff],
  },
  { format: 'film', to_do: 'film', bytes: latin('ftyp'), at: 4 },
];

/** What a file is by its first bytes, if it is one of the formats people mistake for a table; null where it is none of them. */
export function otherFormat(head: Uint8Array): Pick<Format, 'format' | 'to_do'> | null {
  return FORMATS.find(({ bytes, at = 0 }) => bytes.every((byte, i) => head[at + i] === byte)) ?? null;
}
