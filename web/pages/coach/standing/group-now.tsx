import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import type { GroupLine } from '../../../../shared/schemas/coach/standing.ts';
import { formatNumber, formatShortDate } from '../../../app/format.ts';
import { markOf } from '../parts/verdict-mark.tsx';

const t = phrasesOf('athletes', athletesWords);
const common = phrasesOf('common', commonWords);

/** Who changed, who is due, best times: what a coach asks of a group, each name leading to the athlete. */
export function GroupNow({ lines }: { lines: readonly GroupLine[] }) {
  const changed = lines.filter((line) => line.change?.beyond);
  const due = lines.filter((line) => line.test_overdue_days > 0 || line.focus_over);
  const timed = lines.filter((line) => line.last_test !== null);
  return (
    <div class="group-now">
      <section aria-labelledby="who-changed">
        <h2 id="who-changed">{t('who_changed')}</h2>
        {changed.length === 0 ? (
          <p class="quiet">{t('nobody_beyond_chance_in_what')}</p>
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
        <h2 id="who-is-due">{t('who_is_due')}</h2>
        {due.length === 0 ? (
          <p class="quiet">
            {lines.every((line) => line.next_test_date === null)
              ? t('you_set_no_interval_between')
              : t('nobody_no_sprint_test_is')}
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
        <h2 id="best-times">{t('best_times')}</h2>
        {timed.length === 0 ? (
          <p class="quiet">{t('no_sprint_test_yet')}</p>
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
            {common('athlete_2')}
          </th>
          <th scope="col">
            {t('best')}
            <span class="unit">s</span>
          </th>
          <th scope="col">
            {t('last')}
            <span class="unit">s</span>
          </th>
          <th scope="col">{t('on')}</th>
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
    test_overdue_days > 0 ? t('sprint_test_overdue', { days: common('n_days', { n: test_overdue_days }) }) : '',
    focus_over && focus ? t('week_past_your_weeks_keep', { name: focus.name, weeks: Math.floor(focus.weeks) + 1 }) : '',
  ]
    .filter(Boolean)
    .join('; ');
}
