import { overviewOf, workersOf } from '../archive/serve/overview.ts';
import type { ArchiveClient } from '../archive/connect.ts';
import { listRuns } from '../archive/work/run-report.ts';
import { EXIT, type ExitCode } from './exit-codes.ts';

/** What whoever keeps an archive asks first, as text. */
export async function runOverview(client: ArchiveClient): Promise<ExitCode> {
  const { name, level, size_bytes, clubs } = await overviewOf(client);
  const megabytes = (bytes: number) => `${(bytes / 1e6).toFixed(1)} MB`;
  const say = (line: string) => void process.stdout.write(`${line}\n`);
  say(`${name}, level ${level}: ${clubs.length} clubs, ${megabytes(size_bytes)}`);
  for (const club of clubs) {
    const also = [
      club.conflicts > 0 ? `${club.conflicts} fields changed on two machines` : '',
      club.erasures > 0 ? `${club.erasures} erased` : '',
    ].filter(Boolean);
    say(
      `${club.name}: last sent ${club.last_push_utc ?? 'never'} by ${club.machines} machines; ${club.people} people, ${club.repetitions} repetitions, ` +
        `${club.contacts} contacts, ${club.recordings} recordings, ${megabytes(club.bytes)}${also.length > 0 ? `; ${also.join(', ')}` : ''}`,
    );
  }
  const living = (await workersOf(client)).filter(({ lives }) => lives);
  say(
    `${living.length} workers at work${living.map(({ worker_number, machine }) => `, ${worker_number} on ${machine}`).join('')}`,
  );
  for (const { run_id, kind, total, done, failed, waiting, working } of await listRuns(client))
    say(`${kind} ${run_id}: ${done} of ${total} done, ${working} under way, ${waiting} waiting, ${failed} failed`);
  return EXIT.done;
}
