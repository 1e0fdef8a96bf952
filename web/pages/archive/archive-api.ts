import type { ArchiveRun, ArchiveRunReport, NewArchiveRun } from '../../../shared/schemas/archive.ts';
import { archiveWords } from '../../../shared/messages/en/view/archive.ts';
import { formatNumber } from '../../app/format.ts';
import { dateLocale, phrasesOf } from '../../app/language.ts';
import { client } from '../../client.ts';

const t = phrasesOf('archive', archiveWords);

export const archivePaths = {
  overview: '/archive',
  work: '/archive/work',
  run: (run_id: string) => `/archive/runs/${encodeURIComponent(run_id)}`,
};

export const archiveApi = {
  start: (order: NewArchiveRun) => client.post<ArchiveRunReport>('/archive/runs', order),
  change: (run_id: string, how: 'retry' | 'accept' | 'revert') =>
    client.post<{ changed: number }>(`${archivePaths.run(run_id)}/${how}`),
};

/** Pages look again this often: while work is under way, and otherwise. */
export const LOOK_MS = { busy: 3000, quiet: 20_000 };

export const leftOf = ({ waiting, working }: Pick<ArchiveRun, 'waiting' | 'working'>) => waiting + working;

/** Day and time of an instant on this device. */
export function when(utc: string): string {
  return new Date(utc).toLocaleString(dateLocale(), {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
  });
}

export function sizeText(bytes: number): string {
  if (bytes >= 1e9) return `${formatNumber(bytes / 1e9, 1)} GB`;
  return bytes >= 1e6 ? `${formatNumber(bytes / 1e6, 1)} MB` : `${formatNumber(Math.ceil(bytes / 1000), 0)} kB`;
}

/** A count with its thousands apart, as it is read on a screen. */
export function countText(count: number): string {
  return count.toLocaleString(dateLocale());
}

export const runName = ({ kind, created_utc }: ArchiveRun) =>
  t('run_of', { kind: t(`kind_${kind}`), when: when(created_utc) });
