import { createHash } from 'node:crypto';
import { FaultError } from '../../../shared/fault.ts';
import { because } from '../../../shared/reason.ts';
import type { Layout, LayoutCorrection } from '../../../shared/schemas/layout.ts';
import type { Evidence } from '../columns/evidence.ts';
import { sniffTable, type TableShape } from '../text/sniff-table.ts';

/** Names a shape of file: the same logger with the same settings gives the same fingerprint. */
export function fingerprint(
  shape: Pick<TableShape, 'delimiter' | 'decimal_mark' | 'header' | 'units' | 'column_count'>,
): string {
  const plain = (cells: string[]) => cells.map((cell) => cell.trim().toLowerCase());
  const parts = [shape.delimiter, shape.decimal_mark, shape.column_count, plain(shape.header), plain(shape.units)];
  return createHash('sha256').update(JSON.stringify(parts)).digest('hex').slice(0, 16);
}

/**
 * The first saved layout that fits: read with its own delimiter, decimal mark and lines, the file has its fingerprint. So a layout
 * also fits where the file alone would be read in another way, or not at all.
 */
export function fittingLayout(
  lines: string[],
  file: string,
  saved: Layout[],
  evidence: Evidence[],
): { layout: Layout; shape: TableShape } | null {
  const shapes = new Map<string, { shape: TableShape | null; evidence: Evidence[] }>();
  const shapeBy = (text: LayoutCorrection['text']) => {
    const key = JSON.stringify(text ?? null);
    let known = shapes.get(key);
    if (!known) {
      known = { shape: null, evidence: [] };
      try {
        known.shape = sniffTable(lines, file, text, known.evidence);
      } catch (error) {
        if (!(error instanceof FaultError)) throw error;
      }
      shapes.set(key, known);
    }
    return known;
  };
  for (const layout of saved) {
    // Whose rows are read is of one file alone.
    if (layout.rows_of) continue;
    const usual = shapeBy(undefined);
    const { delimiter, decimal_mark, header_row, units_row, rows_from_line } = layout.text;
    const own = { delimiter, decimal_mark, header_row, units_row, rows_from_line };
    // A layout without names would otherwise fit every file with as many columns.
    const nameless = !header_row && usual.shape !== null && usual.shape.header.length > 0;
    const fits = [usual, ...(nameless ? [] : [shapeBy(own)])].find(
      ({ shape }) => shape && fingerprint(shape) === layout.fingerprint,
    );
    if (!fits?.shape) continue;
    evidence.push(...fits.evidence, {
      about: 'layout',
      decided: because('took_saved_layout', { name: layout.name }),
      because: because('by_fingerprint'),
      source: 'told',
    });
    return { layout, shape: fits.shape };
  }
  return null;
}
