import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { CLUB } from '../../../seeds/club/athletes.ts';
import { makeClubRepetition } from '../../../seeds/club/club-repetition.ts';
import { COURSE_M } from '../../../seeds/club/season.ts';
import { UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';
import { pairOfSensors, type ValidationCase } from './validation-case.ts';

async function read(bytes: Uint8Array, file_name: string): Promise<SampleBlock> {
  return (await readCsvRecording(bytes, { file_name })).recordings[0].samples;
}

/** A part-speed and a full-speed repetition of every athlete of the demo club, through the files that the demo imports. */
export async function* demoCases(efforts = [75, 100]): AsyncGenerator<ValidationCase> {
  for (const athlete of CLUB.keys()) {
    for (const [order, effort_percent] of efforts.entries()) {
      const made = makeClubRepetition({
        athlete,
        athletes: CLUB.length,
        session_index: 1,
        date: '2026-11-22',
        order,
        effort_percent,
        rate_hz: 400,
      });
      const left = await read(made.left, 'left.csv.gz');
      const right = await read(made.right, 'right.csv.gz');
      yield {
        name: `demo ${CLUB[athlete].name} ${effort_percent} %`,
        source: 'simulated sprint',
        set: 'demo club, 400 Hz',
        mounting: 'foot',
        rate_hz: left.sampling_rate_hz,
        has_gyroscope: true,
        variant: 'as recorded',
        sensors: pairOfSensors('foot', { left, right }),
        course: {
          ...UNKNOWN_COURSE,
          distance_m: COURSE_M,
          time_s: made.time_s,
          splits: [{ distance_m: COURSE_M / 2, split_time_s: made.split_s }],
          start_style: 'standing',
          timing_method: 'touch_pad_beam',
        },
        reference: made.truth.contacts,
        run: made.truth.repetitions[0],
        reference_covers_all: true,
      };
    }
  }
}
