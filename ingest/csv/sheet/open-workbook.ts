import { strFromU8, unzipSync } from 'fflate';
import { showsDate } from './sheet-dates.ts';
import { readXml } from './xml-parts.ts';

/** The first sheet of a workbook, packed out, with what its cells refer to. */
export interface Workbook {
  sheet: string;
  /** Names of the sheets after it, the first twenty. */
  others: string[];
  xml: Uint8Array;
  texts: string[];
  /** Of every cell style: whether it shows a number as a date. */
  dates: boolean[];
  from1904: boolean;
}

/** What a zip file is that is no workbook of sheets (xlsx). */
export type OtherZip = 'zip' | 'ods' | 'xlsb' | 'docx' | 'npz';

/** A file's texts, and its tables of styles and sheets, are small. */
const MOST_BYTES_BESIDE = 64 << 20;
/** Sheets that are named in a fault. */
const MOST_TOLD = 20;
const WORKBOOK = 'xl/workbook.xml';

/**
 * Opens a workbook of the open packaging convention (ECMA-376).
 * @param most_bytes a larger sheet, packed out, is not opened
 * @returns what else the zip file is; 'too_large' beyond the limit
 * @throws Error where the zip file or its documents are broken
 */
export function openWorkbook(bytes: Uint8Array, most_bytes: number): Workbook | OtherZip | 'too_large' {
  const names = namesIn(bytes);
  if (!names.has(WORKBOOK)) return otherZip(names);
  let too_large = false;
  const take = (wanted: (name: string) => boolean, most: number) =>
    unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        if (!wanted(name)) return false;
        too_large ||= originalSize > most;
        return originalSize <= most;
      },
    });
  const beside = take(
    (name) => /^xl\/(workbook|styles|sharedStrings)\.xml$|^xl\/_rels\//.test(name),
    MOST_BYTES_BESIDE,
  );
  if (too_large) return 'too_large';
  const text = (name: string) => (beside[name] ? strFromU8(beside[name]) : null);
  const { sheets, from1904 } = sheetsOf(text(WORKBOOK)!);
  const path = pathOf(sheets[0]?.id, text('xl/_rels/workbook.xml.rels')) ?? [...names].find(isSheet);
  if (!path) throw new Error('it names no sheet');
  const xml = take((name) => name === path, most_bytes)[path];
  if (too_large) return 'too_large';
  if (!xml) throw new Error(`it lacks ${path}`);
  return {
    sheet: sheets[0]?.name ?? '',
    others: sheets.slice(1, 1 + MOST_TOLD).map(({ name }) => name),
    xml,
    texts: textsOf(text('xl/sharedStrings.xml')),
    dates: datesOf(text('xl/styles.xml')),
    from1904,
  };
}

const isSheet = (name: string) => /^xl\/worksheets\/[^/]+\.xml$/.test(name);

function namesIn(bytes: Uint8Array): Set<string> {
  const names = new Set<string>();
  unzipSync(bytes, { filter: ({ name }) => !names.add(name) });
  return names;
}

function otherZip(names: Set<string>): OtherZip {
  if (names.has('xl/workbook.bin')) return 'xlsb';
  if (names.has('word/document.xml')) return 'docx';
  if ([...names].some((name) => name.endsWith('.npy'))) return 'npz';
  return names.has('content.xml') && names.has('mimetype') ? 'ods' : 'zip';
}

function sheetsOf(document: string): { sheets: { name: string; id: string }[]; from1904: boolean } {
  const sheets: { name: string; id: string }[] = [];
  let from1904 = false;
  readXml(document, {
    open(name, attributes) {
      if (name === 'workbookPr') from1904 = ['1', 'true'].includes(attributes().date1904);
      if (name !== 'sheet') return;
      const found = attributes();
      const id = Object.keys(found).find((key) => key.endsWith(':id')) ?? 'id';
      sheets.push({ name: found.name ?? '', id: found[id] ?? '' });
    },
  });
  return { sheets, from1904 };
}

/** Where a sheet lies, by the relation that the workbook names; null where there is none. */
function pathOf(id: string | undefined, relations: string | null): string | null {
  let target: string | null = null;
  if (relations === null) return null;
  readXml(relations, {
    open(name, attributes) {
      if (name === 'Relationship' && attributes().Id === id) target = attributes().Target ?? null;
    },
  });
  const written = target as string | null;
  if (written === null) return null;
  return written.startsWith('/') ? written.slice(1) : `xl/${written.replace(/^\.\//, '')}`;
}

/** The texts that cells refer to by number; how they are spoken (phonetic runs) is left out. */
function textsOf(document: string | null): string[] {
  const texts: string[] = [];
  if (document === null) return texts;
  let [inText, spoken] = [false, false];
  readXml(document, {
    open(name) {
      if (name === 'si') texts.push('');
      else if (name === 'rPh') spoken = true;
      else if (name === 't') inText = true;
    },
    text(text) {
      if (inText && !spoken && texts.length > 0) texts[texts.length - 1] += text;
    },
    close(name) {
      if (name === 't') inText = false;
      else if (name === 'rPh') spoken = false;
    },
  });
  return texts;
}

function datesOf(document: string | null): boolean[] {
  const codes = new Map<number, string>();
  const dates: boolean[] = [];
  if (document === null) return dates;
  let inCells = false;
  readXml(document, {
    open(name, attributes) {
      if (name === 'numFmt') codes.set(Number(attributes().numFmtId), attributes().formatCode ?? '');
      else if (name === 'cellXfs') inCells = true;
      else if (name === 'xf' && inCells) {
        const id = Number(attributes().numFmtId ?? 0);
        dates.push(showsDate(id, codes.get(id)));
      }
    },
    close(name) {
      if (name === 'cellXfs') inCells = false;
    },
  });
  return dates;
}
