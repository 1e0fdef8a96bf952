/** Files that are no text, by their first bytes, and what to do about them. */
interface Format {
  found: string;
  hint: string;
  /** Bytes the file begins with; at `at` where not at its beginning. */
  bytes: number[];
  at?: number;
}

const latin = (text: string) => [...text].map((letter) => letter.charCodeAt(0));
const UNPACK = 'Unpack it first, or compress with gzip, which is read as it is.';
const EXPORT = 'Export the recording from there as CSV.';

const FORMATS: Format[] = [
  { found: 'a bzip2 archive', hint: UNPACK, bytes: latin('BZh') },
  { found: 'an xz archive', hint: UNPACK, bytes: [0xfd, 0x37, 0x7a, 0x58, 0x5a, 0] },
  { found: 'a Zstandard archive', hint: UNPACK, bytes: [0x28, 0xb5, 0x2f, 0xfd] },
  { found: 'a 7-Zip archive', hint: UNPACK, bytes: [0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c] },
  { found: 'a RAR archive', hint: UNPACK, bytes: latin('Rar!') },
  { found: 'a tar archive', hint: UNPACK, bytes: latin('ustar'), at: 257 },
  {
    found: 'a PDF document',
    hint: 'A printed table cannot be read: export the recording itself as CSV.',
    bytes: latin('%PDF-'),
  },
  { found: 'an SQLite database', hint: EXPORT, bytes: latin('SQLite format 3') },
  { found: 'a Parquet file', hint: EXPORT, bytes: latin('PAR1') },
  { found: 'an Arrow or Feather file', hint: EXPORT, bytes: latin('ARROW1') },
  { found: 'an HDF5 file (MATLAB 7.3 writes them, too)', hint: EXPORT, bytes: [0x89, 0x48, 0x44, 0x46] },
  {
    found: 'a MATLAB file',
    hint: 'Save it from there with writetable or writematrix as CSV.',
    bytes: latin('MATLAB 5.0'),
  },
  {
    found: 'an old Excel workbook (.xls)',
    hint: 'Save its sheet as CSV or as .xlsx.',
    bytes: [0xd0, 0xcf, 0x11, 0xe0],
  },
  { found: 'a C3D file of motion capture', hint: EXPORT, bytes: [0x02, 0x50] },
  {
    found: 'a PNG picture',
    hint: 'A picture of a table cannot be read: export the recording itself as CSV.',
    bytes: [0x89, 0x50, 0x4e, 0x47],
  },
  {
    found: 'a JPEG picture',
    hint: 'A picture of a table cannot be read: export the recording itself as CSV.',
    bytes: [0xff, 0xd8, 0xff],
  },
  { found: 'a film', hint: 'Films belong to the page of film, not here.', bytes: latin('ftyp'), at: 4 },
];

/** What a file is by its first bytes, if it is one of the formats people mistake for a table; null where it is none of them. */
export function otherFormat(head: Uint8Array): { found: string; hint: string } | null {
  return FORMATS.find(({ bytes, at = 0 }) => bytes.every((byte, i) => head[at + i] === byte)) ?? null;
}
