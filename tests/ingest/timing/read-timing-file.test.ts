import { refusalOf, wordsOf } from '../../helpers/told.ts';
import { describe, expect, test } from 'vitest';
import { matchTimings, type TimedRepetition } from '../../../ingest/timing/match-timings.ts';
import { readTime } from '../../../ingest/timing/read-time.ts';
import { readTimingFile } from '../../../ingest/timing/read-timing-file.ts';

const read = (text: string, file_name = 'times.csv') => readTimingFile(Buffer.from(text), { file_name });

describe('readTime', () => {
  test('keeps a time as it was written, with the step its decimals show', () => {
    expect(readTime('4.86')).toEqual({ time_s: 4.86, resolution_s: 0.01, hand: false });
    expect(readTime('4,9 s')).toEqual({ time_s: 4.9, resolution_s: 0.1, hand: false });
    expect(readTime('11.4h')).toEqual({ time_s: 11.4, resolution_s: 0.1, hand: true });
    expect(readTime('1:02.350')).toEqual({ time_s: 62.35, resolution_s: 0.001, hand: false });
    for (const text of ['', 'dns', '1:62.0', '-3.2', '4.8.6', '1e3']) expect(readTime(text)).toBeNull();
  });
});

describe('readTimingFile', () => {
  test('reads one time a row', () => {
    const { entries, faults } = read(
      'athlete,repetition,distance_m,time_s,method\nMina Orsolo,1,10,1.92,beam\nMina Orsolo,1,30,4.31,beam\nTao Wexler,1,30,4.4,hand\n',
    );
    expect(faults).toEqual([]);
    expect(
      entries.map(({ athlete, repetition, distance_m, time_s, method, resolution_s }) => [
        athlete,
        repetition,
        distance_m,
        time_s,
        method,
        resolution_s,
      ]),
    ).toEqual([
      ['Mina Orsolo', 1, 10, 1.92, 'beam', 0.01],
      ['Mina Orsolo', 1, 30, 4.31, 'beam', 0.01],
      ['Tao Wexler', 1, 30, 4.4, 'hand', 0.1],
    ]);
  });

  test('reads one repetition a row with a column for each distance, semicolons and decimal commas', () => {
    const { entries } = read(
      'Datum;Name;Lauf;10 m;20 m;40 yd;Methode\n04.05.2026;Ída Brückwald;2;1,95;3,21;5,34;Lichtschranke\n',
    );
    expect(entries.map(({ distance_m, time_s }) => [distance_m, time_s])).toEqual([
      [10, 1.95],
      [20, 3.21],
      // 40 yd = 36.576 m exactly (international yard of 1959).
      [36.576, 5.34],
    ]);
    expect(entries[0]).toMatchObject({ athlete: 'Ída Brückwald', repetition: 2, date: '04.05.2026', method: 'beam' });
  });

  test('a time with an h is a hand time whatever the method column says', () => {
    const { entries } = read('athlete,rep,distance,time,method\nA,1,40yd,5.2h,beam\n');
    expect(entries[0]).toMatchObject({ method: 'hand', as_written: '5.2h', resolution_s: 0.1 });
  });

  test('says so when hand and electronic times stand in one repetition, or no method is told', () => {
    const mixed = read('athlete,rep,distance_m,time_s,method\nA,1,10,1.9,hand\nA,1,30,4.31,beam\n');
    expect(mixed.faults.map(({ code }) => code)).toEqual(['TIMING_METHODS_MIXED']);
    const silent = read('athlete,rep,distance_m,time_s\nA,1,10,1.9\n');
    expect(silent.entries[0].method).toBeNull();
    expect(silent.faults.map(({ code }) => code)).toEqual(['TIMING_METHOD_UNKNOWN']);
  });

  test('times between gates are summed when the column says so, and refused when it does not', () => {
    const rows = 'A,1,10,1.9,beam\nA,1,20,1.2,beam\nA,1,30,1.05,beam\n';
    const summed = read(`athlete,rep,distance_m,interval_s,method\n${rows}`);
    expect(summed.entries.map(({ time_s }) => Number(time_s.toFixed(6)))).toEqual([1.9, 3.1, 4.15]);
    expect(summed.faults).toEqual([]);
    const doubtful = read(`athlete,rep,distance_m,time_s,method\n${rows}`);
    expect(doubtful.faults[0]).toMatchObject({ code: 'TIMES_NOT_INCREASING', where: { line: 3 } });
  });

  test('photocells are gates and a photo finish is a camera; milliseconds carry no rounding', () => {
    const text = 'athlete,rep,distance,time_ms,method\nAnn,1,30,4350,photocell\nAnn,2,30,4351,photo finish\n';
    const { entries } = readTimingFile(Buffer.from(text), { file_name: 'times.csv' });
    expect(entries.map(({ method, time_s }) => [method, time_s])).toEqual([
      ['beam', 4.35],
      ['gun_photo_finish', 4.351],
    ]);
  });

  test('a slipped decimal is named', () => {
    const text = 'athlete,rep,distance_m,time_s,method\nAnn,1,30,43.5,beam\nAnn,2,30,4.35,beam\n';
    const { faults } = readTimingFile(Buffer.from(text), { file_name: 'times.csv' });
    expect(faults.map(({ code, where }) => [code, where.line])).toEqual([['TIME_IMPLAUSIBLE', 2]]);
  });

  test('rows that cannot be read are set aside and named', () => {
    const good = Array.from({ length: 60 }, (_, i) => `A,${i + 1},10,1.9,beam\n`).join('');
    const { entries, rejected_rows, faults } = read(
      `athlete,rep,distance_m,time_s,method\nA,1,10,dns,beam\nA,2,0,1.9,beam\n${good}`,
    );
    expect(entries.length).toBe(60);
    expect(rejected_rows.map(({ line, column, found }) => [line, column, found])).toEqual([
      [2, 'time_s', '"dns"'],
      [3, 'distance_m', '"0"'],
    ]);
    expect(faults[0].code).toBe('ROWS_SET_ASIDE');
  });

  test('what is no timing file is refused', () => {
    expect(refusalOf(() => read(''))).toMatch(/found nothing/);
    expect(refusalOf(() => read('Dear coach,\nnothing today\n'))).toMatch(/expected a header/);
  });
});

describe('matchTimings', () => {
  const repetitions: TimedRepetition[] = [1, 2].flatMap((repetition) =>
    ['Mina Orsolo', 'Tao Wexler'].map((athlete_name, index) => ({
      repetition_id: 10 * repetition + index,
      athlete_name,
      date: '2026-05-04',
      set: null,
      repetition,
    })),
  );

  test('finds the repetition by athlete, day and number, and leaves hand times out of electronic ones', () => {
    const { entries } = read(
      'date,athlete,rep,distance_m,time_s,method\n4.5.2026,"Orsolo, Mina",2,10,1.92,beam\n4.5.2026,"Orsolo, Mina",2,30,4.31,beam\n4.5.2026,"Orsolo, Mina",2,30,4.1,hand\n',
    );
    const { matched, unmatched } = matchTimings(entries, repetitions);
    expect(unmatched).toEqual([]);
    expect(matched).toEqual([
      {
        repetition_id: 20,
        splits: [
          { distance_m: 10, split_time_s: 1.92 },
          { distance_m: 30, split_time_s: 4.31 },
        ],
        distance_m: 30,
        time_s: 4.31,
        method: 'beam',
        clock: null,
        resolution_s: 0.01,
        kept_apart: [entries[2]],
      },
    ]);
  });

  test('names what fits no repetition or several', () => {
    const { entries } = read('athlete,rep,distance_m,time_s,method\nNobody,1,10,1.9,beam\nTao Wexler,,10,1.9,beam\n');
    const { matched, unmatched } = matchTimings(entries, repetitions);
    expect(matched).toEqual([]);
    expect(unmatched.map(({ why }) => wordsOf(why))).toEqual([
      'Nobody, no day, repetition 1: no such repetition',
      'Tao Wexler, no day, repetition not numbered: fits 2 repetitions',
    ]);
  });
});
