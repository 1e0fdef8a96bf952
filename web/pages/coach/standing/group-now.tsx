import type { GroupLine } from '../../../../shared/schemas/coach/standing.ts';
import { count } from '../../../app/describe.ts';
import { formatNumber, formatShortDate } from '../../../app/format.ts';
import { markOf } from '../parts/verdict-mark.tsx';

/** Who changed, who is due, best times: what a coach asks of a group, each name leading to the athlete. */
export function GroupNow({ lines }: { lines: readonly GroupLine[] }) {
  const changed = lines.filter((line) => line.change?.beyond);
  const due = lines.filter((line) => line.test_overdue_days > 0 || line.focus_over);
  const timed = lines.filter((line) => line.last_test !== null);
  return (
    <div class="group-now">
      <section aria-labelledby="who-changed">
        <h2 id="who-changed">Who changed</h2>
        {changed.length === 0 ? (
          <p class="quiet">Nobody beyond chance in what they work on.</p>
        ) : (
          <ul>
            {changed.map((line) => (
              <li key={line.athlete_id} class={markOf({ kind: 'changed', wanted: line.change!.wanted })}>
                <Name line={line} />
                <span>{line.change!.sentence}</span>
              </li>
            ))}
          </ul>
        )}
      </section>
      <section aria-labelledby="who-is-due">
        <h2 id="who-is-due">Who is due</h2>
        {due.length === 0 ? (
          <p class="quiet">
            {lines.every((line) => line.next_test_date === null)
              ? 'You set no interval between sprint tests: no test falls due.'
              : 'Nobody: no sprint test is overdue.'}
          </p>
        ) : (
          <ul>
            {due.map((line) => (
              <li key={line.athlete_id}>
                <Name line={line} />
                <span>{dueWords(line)}</span>
              </li>
            ))}
          </ul>
        )}
      </section>
      <section aria-labelledby="best-times">
        <h2 id="best-times">Best times</h2>
        {timed.length === 0 ? (
          <p class="quiet">No sprint test yet.</p>
        ) : (
          [...byTitle(timed)].map(([title, group]) => <BestTimes key={title} title={title} lines={group} />)
        )}
      </section>
    </div>
  );
}

/** Times can be compared within one kind of test only. */
function byTitle(lines: readonly GroupLine[]): Map<string, GroupLine[]> {
  const groups = new Map<string, GroupLine[]>();
  for (const line of lines) {
    const { title } = line.last_test!;
    groups.set(title, [...(groups.get(title) ?? []), line]);
  }
  return groups;
}

function BestTimes({ title, lines }: { title: string; lines: readonly GroupLine[] }) {
  return (
    <table class="numbers best-times">
      <caption>{title}</caption>
      <thead>
        <tr>
          <th scope="col" class="word">
            athlete
          </th>
          <th scope="col">
            best<span class="unit">s</span>
          </th>
          <th scope="col">
            last<span class="unit">s</span>
          </th>
          <th scope="col">on</th>
        </tr>
      </thead>
      <tbody>
        {lines.map(({ athlete_id, name, last_test }) => (
          <tr key={athlete_id}>
            <th scope="row" class="word">
              <a href={`#/athletes/${athlete_id}/tests`}>{name}</a>
            </th>
            <td>{formatNumber(last_test!.best_s, 2)}</td>
            <td>{formatNumber(last_test!.time_s, 2)}</td>
            <td>{formatShortDate(last_test!.date)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Name({ line }: { line: GroupLine }) {
  return (
    <a href={`#/athletes/${line.athlete_id}`}>
      <strong>{line.name}</strong>
    </a>
  );
}

function dueWords({ test_overdue_days, focus_over, focus }: GroupLine): string {
  return [
    test_overdue_days > 0 ? `sprint test ${count(test_overdue_days, 'day')} overdue` : '',
    focus_over && focus
      ? `${focus.name}: week ${Math.floor(focus.weeks) + 1}, past your weeks; keep it or move on`
      : '',
  ]
    .filter(Boolean)
    .join('; ');
}
