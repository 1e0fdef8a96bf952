import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { FaultError, fault } from '../../shared/fault.ts';
import { EXPORT_KINDS, EXPORT_LEVELS, type ExportOrder, type ResearchExport } from '../../shared/schemas/export.ts';
import { recordExport } from '../export/export-records.ts';
import { type ExportSink, folderSink } from '../export/sink.ts';
import { writeExport } from '../export/formats/write-export.ts';
import { DATABASE_NAME, findRunningServer } from '../server/running-server.ts';
import { Store } from '../store/store.ts';
import type { Command, OptionValues } from './command.ts';
import { DATA_OPTION, dataFolder } from './data-folder.ts';
import { EXIT } from './exit-codes.ts';
import { clientOf } from './api-client.ts';

export const exportCommand: Command = {
  name: 'export',
  summary: 'Data for research: tidy tables, or raw signals in Motion-BIDS, of those who agreed.',
  options: {
    out: { value: 'DIR', required: true, help: 'a new or empty folder' },
    kind: { value: 'KIND', words: EXPORT_KINDS, help: 'tables (without it) or motion_bids' },
    athlete: { value: 'ID', multiple: true, help: 'only this athlete' },
    group: { value: 'ID', multiple: true, help: 'only athletes of this group' },
    session: { value: 'ID', multiple: true, help: 'only this session' },
    from: { value: 'DATE', help: 'first day, as 2026-11-25' },
    to: { value: 'DATE', help: 'last day' },
    'effort-from': { value: 'PERCENT', help: 'least effort' },
    'effort-to': { value: 'PERCENT', help: 'greatest effort' },
    quantity: { value: 'FIELD', multiple: true, help: 'only this quantity of a contact, such as contact_time_ms' },
    level: { value: 'LEVEL', words: EXPORT_LEVELS, help: 'pseudonyms (without it), or open: made for publishing' },
    'shift-dates': { help: "moves every athlete's dates by an amount of their own; intervals stay" },
    'with-names': { help: 'names instead of pseudonyms; for use inside the club' },
    'with-free-text': { help: 'titles and notes as written' },
    data: DATA_OPTION,
  },
  details: 'Only athletes whose consent is recorded as given are exported. Every export is recorded in the database.',
  run: async (options) => {
    const folder = dataFolder(options);
    const out = resolve(options.out as string);
    const sink = folderSink(out);
    const order = orderOf(options);
    const started = performance.now();
    const made = await exportFrom(folder, order, sink);
    const seconds = ((performance.now() - started) / 1000).toFixed(1);
    const without = made.left_out > 0 ? `; ${made.left_out} athletes without consent left out` : '';
    process.stdout.write(
      `${out}: ${made.athletes} athletes, ${made.repetitions} repetitions, ${made.contacts} contacts in ${seconds} s${without}\n`,
    );
    return EXIT.done;
  },
};

/** Records the export through the server that works on the folder, or in the database itself where there is none; then writes it. */
async function exportFrom(folder: string, order: ExportOrder, sink: ExportSink): Promise<ResearchExport> {
  const file = join(folder, DATABASE_NAME);
  if (!existsSync(file)) {
    throw new FaultError(fault('FILE_NOT_FOUND.to_export', { file }, { file }));
  }
  const running = await findRunningServer(folder);
  const store = running ? Store.openForReading(file) : Store.open(file);
  try {
    const made = running
      ? await clientOf(running).call<ResearchExport>('POST', '/exports', order)
      : recordExport(store, order);
    await writeExport(store, made, sink);
    return made;
  } finally {
    store.close();
  }
}

function orderOf(options: OptionValues): ExportOrder {
  const order: ExportOrder = { kind: (options.kind as ExportOrder['kind'] | undefined) ?? 'tables' };
  const ids = { athlete: 'athlete_ids', group: 'group_ids', session: 'session_ids' } as const;
  for (const [option, field] of Object.entries(ids) as [keyof typeof ids, (typeof ids)[keyof typeof ids]][]) {
    const words = options[option] as string[] | undefined;
    if (words) order[field] = words.map((word) => readNumber(`--${option}`, word));
  }
  if (options.from !== undefined) order.from = options.from as string;
  if (options.to !== undefined) order.to = options.to as string;
  if (options['effort-from'] !== undefined)
    order.effort_from_percent = readNumber('--effort-from', options['effort-from'] as string);
  if (options['effort-to'] !== undefined)
    order.effort_to_percent = readNumber('--effort-to', options['effort-to'] as string);
  if (options.quantity !== undefined) order.quantities = options.quantity as string[];
  if (options.level !== undefined) order.level = options.level as ExportOrder['level'];
  if (options['shift-dates'] === true) order.shift_dates = true;
  if (options['with-names'] === true) order.with_names = true;
  if (options['with-free-text'] === true) order.with_free_text = true;
  return order;
}

function readNumber(option: string, word: string): number {
  const value = Number(word);
  if (word.trim() !== '' && Number.isFinite(value)) return value;
  throw new FaultError(fault('OPTION_UNREADABLE.identifier', { option, word }, { option, value: word }));
}
