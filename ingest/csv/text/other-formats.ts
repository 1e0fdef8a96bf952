/** Files that are no text, by their first bytes, and what to do about them. */
interface Format {
  /** Its short name, told in full by the catalogue of messages. */
  format: string;
  /** What helps: the last word of the fault FILE_NOT_TEXT's sentence. */
  to_do:
    | 'unpack'
    | 'export'
    | 'printed'
    | 'write_table'
    | 'write_csv'
    | 'write_csv_r'
    | 'save_text'
    | 'save_sheet'
    | 'save_utf8'
    | 'picture'
    | 'film';
  /** Bytes the file begins with; at `at` where not at its beginning. */
  bytes: number[];
  at?: number;
  /** Further bytes that must be there. */
  and?: { bytes: number[]; at: number };
}

const latin = (text: string) => [...text].map((letter) => letter.charCodeAt(0));

const FORMATS: Format[] = [
  { format: 'bzip2', to_do: 'unpack', bytes: latin('BZh') },
  { format: 'xz', to_do: 'unpack', bytes: [0xfd, 0x37, 0x7a, 0x58, 0x5a, 0] },
  { format: 'lzma', to_do: 'unpack', bytes: [0x5d, 0, 0] },
  { format: 'compress', to_do: 'unpack', bytes: [0x1f, 0x9d] },
  { format: 'lz4', to_do: 'unpack', bytes: [0x04, 0x22, 0x4d, 0x18] },
  { format: 'snappy', to_do: 'unpack', bytes: [0xff, 0x06, 0, 0, ...latin('sNaPpY')] },
  { format: 'zstandard', to_do: 'unpack', bytes: [0x28, 0xb5, 0x2f, 0xfd] },
  { format: '7-zip', to_do: 'unpack', bytes: [0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c] },
  { format: 'rar', to_do: 'unpack', bytes: latin('Rar!') },
  { format: 'tar', to_do: 'unpack', bytes: latin('ustar'), at: 257 },
  { format: 'pdf', to_do: 'printed', bytes: latin('%PDF-') },
  { format: 'rtf', to_do: 'printed', bytes: latin('{\\rtf') },
  { format: 'sqlite', to_do: 'export', bytes: latin('SQLite format 3') },
  { format: 'duckdb', to_do: 'export', bytes: latin('DUCK'), at: 8 },
  { format: 'parquet', to_do: 'write_csv', bytes: latin('PAR1') },
  { format: 'arrow', to_do: 'write_csv', bytes: latin('ARROW1') },
  { format: 'arrow', to_do: 'write_csv', bytes: latin('FEA1') },
  { format: 'arrow', to_do: 'write_csv', bytes: [0xff, 0xff, 0xff, 0xff] },
  { format: 'avro', to_do: 'write_csv', bytes: [...latin('Obj'), 1] },
  { format: 'npy', to_do: 'save_text', bytes: [0x93, ...latin('NUMPY')] },
  { format: 'pickle', to_do: 'write_csv', bytes: [0x80, 0x04, 0x95] },
  { format: 'pickle', to_do: 'write_csv', bytes: [0x80, 0x05, 0x95] },
  { format: 'hdf5', to_do: 'export', bytes: [0x89, ...latin('HDF')] },
  { format: 'hdf5', to_do: 'export', bytes: [0x89, ...latin('HDF')], at: 512 },
  { format: 'matlab', to_do: 'write_table', bytes: latin('MATLAB 5.0') },
  { format: 'r', to_do: 'write_csv_r', bytes: latin('RDX') },
  { format: 'r', to_do: 'write_csv_r', bytes: [...latin('X\n'), 0, 0, 0] },
  { format: 'spss', to_do: 'export', bytes: latin('$FL') },
  { format: 'stata', to_do: 'export', bytes: latin('<stata_dta>') },
  { format: 'sas', to_do: 'export', bytes: [0xc2, 0xea, 0x81, 0x60], at: 12 },
  { format: 'tdms', to_do: 'export', bytes: latin('TDSm') },
  { format: 'mdf', to_do: 'export', bytes: latin('MDF     ') },
  { format: 'xdf', to_do: 'export', bytes: latin('XDF:') },
  { format: 'edf', to_do: 'export', bytes: [0xff, ...latin('BIOSEMI')] },
  { format: 'rosbag', to_do: 'export', bytes: latin('#ROSBAG') },
  { format: 'mcap', to_do: 'export', bytes: [0x89, ...latin('MCAP')] },
  { format: 'xls', to_do: 'save_sheet', bytes: [0xd0, 0xcf, 0x11, 0xe0] },
  { format: 'utf-32', to_do: 'save_utf8', bytes: [0xff, 0xfe, 0, 0] },
  { format: 'utf-32', to_do: 'save_utf8', bytes: [0, 0, 0xfe, 0xff] },
  // The first byte says in which block the parameters begin.
  { format: 'c3d', to_do: 'export', bytes: [0x50], at: 1, and: { bytes: [0], at: 3 } },
  { format: 'png', to_do: 'picture', bytes: [0x89, 0x50, 0x4e, 0x47] },
  { format: 'jpeg', to_do: 'picture', bytes: [0xff, 0xd8, 0xff] },
  { format: 'gif', to_do: 'picture', bytes: latin('GIF8') },
  { format: 'webp', to_do: 'picture', bytes: latin('RIFF'), and: { bytes: latin('WEBP'), at: 8 } },
  { format: 'heic', to_do: 'picture', bytes: latin('ftyphei'), at: 4 },
  { format: 'wave', to_do: 'export', bytes: latin('RIFF'), and: { bytes: latin('WAVE'), at: 8 } },
  { format: 'film', to_do: 'film', bytes: latin('RIFF'), and: { bytes: latin('AVI '), at: 8 } },
  { format: 'film', to_do: 'film', bytes: latin('ftyp'), at: 4 },
  { format: 'film', to_do: 'film', bytes: [0x1a, 0x45, 0xdf, 0xa3] },
];

/** What a file is by its first bytes, if it is one of the formats people mistake for a table; null where it is none of them. */
export function otherFormat(head: Uint8Array): Pick<Format, 'format' | 'to_do'> | null {
  const holds = ({ bytes, at = 0 }: { bytes: number[]; at?: number }) =>
    bytes.every((byte, i) => head[at + i] === byte);
  return FORMATS.find((format) => holds(format) && (!format.and || holds(format.and))) ?? null;
}
