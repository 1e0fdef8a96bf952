import { type Fault, fault } from '../../shared/fault.ts';
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
    const { line, column, found, expected } = first;
    faults.push(
      fault(
        'ROWS_SET_ASIDE.times',
        { file, count: rejected.count, line, column, found, expected },
        { file, line, column, rows_set_aside: rejected.count },
      ),
    );
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
    const values = { file, count: odd.length, line, as_written, distance_m, mps: distance_m / time_s };
    const limits = { least_mps: SLOWEST_MPS, most_mps: FASTEST_MPS };
    faults.push(fault('TIME_IMPLAUSIBLE', { ...values, ...limits }, { file, line, times: odd.length }));
  }
  const unknown = entries.filter(({ method }) => method === null).length;
  if (unknown > 0) faults.push(fault('TIMING_METHOD_UNKNOWN', { file, unknown, of: entries.length }, { file }));
  return faults;
}

function faultsOfOne(group: TimingEntry[], file: string): Fault[] {
  const one = { file, athlete: group[0].athlete, repetition: group[0].repetition };
  const faults: Fault[] = [];
  const methods = new Set(group.map(({ method }) => method));
  if (methods.has('hand') && methods.size > 1) {
    faults.push(fault('TIMING_METHODS_MIXED', one, { file, line: group[0].line }));
  }
  for (const method of methods) {
    const own = group.filter((entry) => entry.method === method).sort((a, b) => a.distance_m - b.distance_m);
    const back = own.findIndex((entry, index) => index > 0 && entry.time_s <= own[index - 1].time_s);
    if (back < 0) continue;
    const [last, at] = [own[back - 1], own[back]];
    const values = {
      line: at.line,
      found: at.as_written,
      at_m: at.distance_m,
      before: last.as_written,
      before_m: last.distance_m,
    };
    faults.push(fault('TIMES_NOT_INCREASING', { ...one, ...values }, { file, line: at.line }));
  }
  return faults;
}
