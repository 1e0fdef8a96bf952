/** Workbooks that are made to hold a reader up, or that say what they are: each comes to its end at once. */
import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { FaultError } from '../../../shared/fault.ts';
import { told } from '../../helpers/told.ts';
import { writeWorkbook } from './write-workbook.ts';

const SHEET = 'xl/worksheets/sheet1.xml';
const bookOf = (sheet: string) =>
  zipSync({
    'xl/workbook.xml': strToU8('<workbook xmlns:r="r"><sheets><sheet name="S" r:id="a"/></sheets></workbook>'),
    'xl/_rels/workbook.xml.rels': strToU8(
      '<Relationships><Relationship Id="a" Target="/xl/worksheets/sheet1.xml"/></Relationships>',
    ),
    [SHEET]: strToU8(`<worksheet><sheetData>${sheet}</sheetData></worksheet>`),
  });
const refusal = async (bytes: Uint8Array) => {
  const error = await readCsvRecording(bytes, { file_name: 'a.xlsx' }).catch((cause: unknown) => cause);
  expect(error).toBeInstanceOf(FaultError);
  return (error as FaultError).toFault();
};

describe('a workbook', () => {
  test.each([
    [
      'whose rows are numbered to a thousand millions',
      '<row r="1"><c r="A1"><v>1</v></c></row><row r="999999999"><c r="A999999999"><v>1</v></c></row>',
      'NOT_A_RECORDING',
    ],
    [
      'with a cell beyond the last column that sheets have',
      '<row><c r="ZZZZ1"><v>1</v></c></row>',
      'WORKBOOK_UNREADABLE',
    ],
    [
      'whose rows are as wide as sheets go, with nothing between',
      '<row><c r="A1"><v>1</v></c><c r="XFD1"><v>2</v></c></row>'.repeat(20_000),
      'NOT_A_RECORDING',
    ],
    ['with one text of ten million letters', `<row><c t="str"><v>${'a'.repeat(1e7)}</v></c></row>`, 'NOT_A_RECORDING'],
    ['whose elements do not close', '<row><c><v>1</v>', 'WORKBOOK_UNREADABLE'],
    ['without a cell', '', 'FILE_EMPTY'],
  ])('%s is refused', async (_, sheet, code) => {
    expect((await refusal(bookOf(sheet))).code).toBe(code);
  });

  test('that packs more than can be held is refused by the size it states, before it is unpacked', async () => {
    const bytes = Buffer.from(bookOf('<row/>'));
    // Sizes stand in the list at the end of the zip file (APPNOTE 4.3.12): 24 bytes into an entry, the name 46 bytes into it.
    const entry = bytes.lastIndexOf(SHEET) - 46;
    bytes.writeUInt32LE(0x7fffffff, entry + 24);
    expect((await refusal(bytes)).code).toBe('WORKBOOK_TOO_LARGE');
  });

  test('tells the sheets that hold no part of what was read, and where to look when the first holds none', async () => {
    const notes = writeWorkbook(
      [
        ['Device', 'invented'],
        ['Rate', 200],
      ],
      { sheets: ['About', 'Left foot'] },
    );
    const { message } = told(await refusal(notes));
    expect(message).toContain('"About"');
    expect(message).toContain('"Left foot"');
  });
});
