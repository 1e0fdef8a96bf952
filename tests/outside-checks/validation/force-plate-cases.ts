/**
 * The recordings with force plates: treadmill running (Fukuchi et al. 2017, PeerJ 5:e3298, doi 10.7717/peerj.3298, CC BY
 * 4.0; Davis 2022) and running over ground (Dorn et al. 2012, J Exp Biol 215:1944, doi 10.1242/jeb.064527). Reference
 * contacts are good to about 2 ms; that error is part of every spread printed.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Papa from 'papaparse';
import { readCsvRecording } from '../../../ingest/csv/read-csv-recording.ts';
import { UNKNOWN_COURSE } from '../../../shared/analysis.ts';
import type { SampleBlock } from '../../../shared/sample-block.ts';
import { toContactThreshold } from './contact-threshold.ts';
import { pairOfSensors, type ReferenceContact, type ValidationCase } from './validation-case.ts';

export async function readSamples(file: string): Promise<SampleBlock> {
  const { recordings } = await readCsvRecording(readFileSync(file), { file_name: file });
  return recordings[0].samples;
}

export function readTable(file: string): Record<string, string>[] {
  return Papa.parse<Record<string, string>>(readFileSync(file, 'utf8').trim(), { header: true }).data;
}

/** Person of a recording: those of one source without a number count as one. */
export function runnerOf(name: string): string {
  return /RBDS\d+/.exec(name)?.[0] ?? name.split('-').at(-1)!;
}

/** @param folders of the real recordings, or one of them; @param only part of a recording's name */
export async function* forcePlateCases(folders: string | readonly string[], only = ''): AsyncGenerator<ValidationCase> {
  const found = [folders].flat().flatMap((folder) => readdirSync(folder).map((name) => ({ folder, name })));
  for (const { folder, name } of found.sort((a, b) => (a.name < b.name ? -1 : 1))) {
    if (!/^(treadmill-run|overground)/.test(name) || !name.includes(only)) continue;
    const about = JSON.parse(readFileSync(join(folder, name, 'recording.json'), 'utf8'));
    const belt = (about.belt_speed_mps as number | undefined) ?? null;
    const reference = readTable(join(folder, name, 'contacts.csv')).map(
      (row): ReferenceContact => ({
        side: row.side as 'left' | 'right',
        ...toContactThreshold(
          { touchdown_s: Number(row.touchdown_s), toe_off_s: Number(row.toe_off_s) },
          about.contact_threshold_N,
          belt ?? about.mean_speed_mps,
        ),
        step_length_m: row.step_length_m ? Number(row.step_length_m) : null,
        stride_length_m: null,
        speed_mps: belt ?? about.mean_speed_mps,
        // From markers, good to about 2 degrees.
        ...angles(row),
      }),
    );
    addStrideLengths(reference, belt);
    for (const mounting of ['foot', 'shank'] as const) {
      const blocks = {
        left: await readSamples(join(folder, name, `${mounting}_left.csv.gz`)),
        right: await readSamples(join(folder, name, `${mounting}_right.csv.gz`)),
      };
      yield {
        name,
        runner: runnerOf(name),
        source: belt === null ? 'overground' : 'treadmill',
        set: 'force plates',
        mounting,
        rate_hz: about.sampling_rate_hz,
        has_gyroscope: true,
        variant: 'as recorded',
        sensors: pairOfSensors(mounting, blocks),
        course: { ...UNKNOWN_COURSE, belt_speed_mps: belt },
        reference,
        reference_covers_all: false,
      };
    }
  }
}

const ANGLES = [
  'foot_pitch_touchdown_deg',
  'foot_pitch_toe_off_deg',
  'foot_progression_deg',
  'shank_rotation_deg',
] as const;

/** Angles of one row; a foot whose markers were not seen has none. */
function angles(row: Record<string, string>): Partial<Record<(typeof ANGLES)[number], number>> {
  return Object.fromEntries(ANGLES.filter((field) => row[field]).map((field) => [field, Number(row[field])]));
}

/** On a belt, stride length is belt speed times stride time, by definition. */
function addStrideLengths(reference: ReferenceContact[], belt_mps: number | null): void {
  if (belt_mps === null) return;
  reference.forEach((contact, i) => {
    const next = reference.slice(i + 1).find((other) => other.side === contact.side);
    // A stride with a contact missing from the reference in between is no stride.
    if (next && next.touchdown_s - contact.touchdown_s < 1) {
      contact.stride_length_m = belt_mps * (next.touchdown_s - contact.touchdown_s);
    }
  });
}
