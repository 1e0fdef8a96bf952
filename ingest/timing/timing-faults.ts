import type { Fault } from '../../shared/fault.ts';
import type { RejectedRows } from '../csv/rows/rejected-rows.ts';
import { repetitionKey, type TimingEntry } from './timing-entry.ts';

/** Mean speed from standing: slower is walking, faster was never run over any distance (common practice). */
const SLOWEST_MPS = 1.5;
const FASTEST_MPS = 12.5;

/** What is doubtful about the times of a file: rows set aside, methods mixed or unknown, times that do not grow. */
export function timingFaults(entries: TimingEntry[], rejected: RejectedRows, file: string): Fault[] {
  const faults: Fault[] = [];
  if (rejected.count > 0) {
    const [first] = rejected.kept;
    faults.push({
      code: 'ROWS_SET_ASIDE',
      message: `${file}: ${rejected.count} time${rejected.count === 1 ? '' : 's'} set aside (first: line ${first.line}, column "${first.column}": found ${first.found}, expected ${first.expected}).`,
      where: { file, line: first.line, column: first.column, rows_set_aside: rejected.count },
      hint: 'Correct the file and read it again; nothing was filled in.',
    });
  }
  const groups = new Map<string, TimingEntry[]>();
  for (const entry of entries) groups.set(repetitionKey(entry), [...(groups.get(repetitionKey(entry)) ?? []), entry]);
  for (const group of groups.values()) faults.push(...faultsOfOne(group, file));
  const odd = entries.filter(({ distance_m, time_s }) => {
    const speed = distance_m / time_s;
    return speed < SLOWEST_MPS || speed > FASTEST_MPS;
  });
  if (odd.length > 0) {
    const [{ line, as_written, distance_m, time_s }] = odd;
    faults.push({
      code: 'TIME_IMPLAUSIBLE',
      message: `${file}: ${odd.length} time${odd.length === 1 ? '' : 's'} that nobody sprints (first: line ${line}: found ${as_written} for ${distance_m} m, ${(distance_m / time_s).toFixed(1)} m/s on average; expected ${SLOWEST_MPS} to ${FASTEST_MPS} m/s).`,
      where: { file, line, times: odd.length },
      hint: 'Look for a slipped decimal, another unit, or times between gates (name the column "interval" then).',
    });
  }
  if (entries.some(({ method }) => method === null)) {
    faults.push({
      code: 'TIMING_METHOD_UNKNOWN',
      message: `${file}: ${entries.filter(({ method }) => method === null).length} of ${entries.length} times do not tell how they were taken; hand and electronic times differ by 0.2 to 0.3 s, so they were not compared with others.`,
      where: { file },
      hint: 'Add a column "method": hand, beam, touch pad, photo finish.',
    });
  }
  return faults;
}

function faultsOfOne(group: TimingEntry[], file: string): Fault[] {
  const who = `${group[0].athlete ?? 'unknown athlete'}, repetition ${group[0].repetition ?? '?'}`;
  const faults: Fault[] = [];
  const methods = new Set(group.map(({ method }) => method));
  if (methods.has('hand') && methods.size > 1) {
    faults.push({
      code: 'TIMING_METHODS_MIXED',
      message: `${file}: ${who}: hand times and electronic times in one repetition; they are kept apart and never mixed.`,
      where: { file, line: group[0].line },
      hint: 'Times of one method are used together; the others are listed beside them.',
    });
  }
  for (const method of methods) {
    const own = group.filter((entry) => entry.method === method).sort((a, b) => a.distance_m - b.distance_m);
    const back = own.findIndex((entry, index) => index > 0 && entry.time_s <= own[index - 1].time_s);
    if (back < 0) continue;
    faults.push({
      code: 'TIMES_NOT_INCREASING',
      message: `${file}, line ${own[back].line}: ${who}: found ${own[back].as_written} at ${own[back].distance_m} m after ${own[back - 1].as_written} at ${own[back - 1].distance_m} m; times run from the start and must grow. The repetition is not used.`,
      where: { file, line: own[back].line },
      hint: 'If these are times between gates, name the column "interval".',
    });
  }
  return faults;
}
