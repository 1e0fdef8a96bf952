import { strToU8, zipSync } from 'fflate';

/** A cell: text, a number, or a number shown as a date by a format. */
export type Cell = string | number | { serial: number; format: string } | null;

export interface WorkbookOptions {
  sheets?: string[];
  date1904?: boolean;
  /** Texts in the cells themselves, not in a table of their own. */
  inline?: boolean;
  /** Cells that do not say where they stand. */
  placeless?: boolean;
  /** Elements with a prefix, as some programs write them. */
  prefix?: string;
}

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const escaped = (text: string) => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/"/g, '&quot;');
const letters = (column: number): string =>
  (column >= 26 ? letters(Math.floor(column / 26) - 1) : '') + String.fromCharCode(65 + (column % 26));

/** A workbook (ECMA-376) whose first sheet holds these rows; the others are empty. */
export function writeWorkbook(rows: Cell[][], options: WorkbookOptions = {}): Buffer {
  const { sheets = ['Sheet1'], date1904 = false, inline = false, placeless = false, prefix = '' } = options;
  const texts: string[] = [];
  const formats: string[] = [];
  const at = <T>(list: T[], item: T) => {
    const found = list.indexOf(item);
    return found >= 0 ? found : list.push(item) - 1;
  };
  const e = (name: string, attributes: string, inside: string) =>
    `<${prefix}${name}${attributes}>${inside}</${prefix}${name}>`;
  const cell = (value: Cell, row: number, column: number): string => {
    if (value === null) return '';
    const place = placeless ? '' : ` r="${letters(column)}${row + 1}"`;
    if (typeof value === 'number') return e('c', place, e('v', '', String(value)));
    if (typeof value === 'object')
      return e('c', `${place} s="${at(formats, value.format) + 1}"`, e('v', '', String(value.serial)));
    if (inline) return e('c', `${place} t="inlineStr"`, e('is', '', e('t', '', escaped(value))));
    return e('c', `${place} t="s"`, e('v', '', String(at(texts, value))));
  };
  const body = rows.map((cells, row) =>
    e('row', placeless ? '' : ` r="${row + 1}"`, cells.map((value, column) => cell(value, row, column)).join('')),
  );
  const xmlns = prefix ? ` xmlns:${prefix.slice(0, -1)}="${MAIN}"` : ` xmlns="${MAIN}"`;
  const sheet = (inside: string) => e('worksheet', xmlns, e('sheetData', '', inside));
  const list = sheets.map((name, i) => `<sheet name="${escaped(name)}" sheetId="${i + 1}" r:id="rId${i + 1}"/>`);
  const relations = sheets.map((_, i) => `<Relationship Id="rId${i + 1}" Target="worksheets/sheet${i + 1}.xml"/>`);
  const numFmts = formats.map((code, i) => `<numFmt numFmtId="${164 + i}" formatCode="${escaped(code)}"/>`);
  const xfs = formats.map((_, i) => `<xf numFmtId="${164 + i}" applyNumberFormat="1"/>`);
  const files: Record<string, string> = {
    'xl/workbook.xml': `<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><workbookPr${date1904 ? ' date1904="1"' : ''}/><sheets>${list.join('')}</sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': `<Relationships>${relations.join('')}</Relationships>`,
    'xl/styles.xml': `<styleSheet xmlns="${MAIN}"><numFmts>${numFmts.join('')}</numFmts><cellXfs><xf numFmtId="0"/>${xfs.join('')}</cellXfs></styleSheet>`,
    'xl/sharedStrings.xml': `<sst xmlns="${MAIN}">${texts.map((text) => `<si><t>${escaped(text)}</t></si>`).join('')}</sst>`,
    'xl/worksheets/sheet1.xml': sheet(body.join('')),
  };
  for (let i = 1; i < sheets.length; i++) files[`xl/worksheets/sheet${i + 1}.xml`] = sheet('');
  const mtime = new Date(2026, 0, 1);
  const packed = Object.fromEntries(Object.entries(files).map(([name, text]) => [name, strToU8(text)]));
  return Buffer.from(zipSync(packed, { mtime }));
}
