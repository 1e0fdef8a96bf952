import type { Column } from '../en/column-names.ts';

export const quoted = (names: readonly string[]): string => names.map((name) => `„${name}“`).join(', ');

/** Spalten, wie die Datei sie nennt, oder mit ihrer Nummer. */
export const named = (columns: readonly Column[]): string =>
  columns.map(({ name, n }) => (name === '' ? `Spalte ${n}` : `„${name}“`)).join(', ');

/** Einheiten heißen gleich, bis auf gezählte und die einer Uhr und einer Tabelle. */
export const unitWords = (unit: string): string =>
  unit
    .replace(/^counts$/, 'Zählwerte')
    .replace(/^ticks of /, 'Takte von ')
    .replace(/^ticks$/, 'Takte')
    .replace(/^rows$/, 'Zeilen')
    .replace(/^days\b/, 'Tage')
    .replace(/^units of the layout$/, 'Einheiten des Layouts')
    .replace(/^Julian days$/, 'julianische Tage')
    .replace(/ of a spreadsheet$/, ' einer Tabelle')
    .replace(/ since the year (\d+)$/, ' seit dem Jahr $1')
    .replace(/ since (\d+)$/, ' seit $1')
    .replace('0.1', '0,1');
