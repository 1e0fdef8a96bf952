import { commonWords } from '../../../shared/messages/en/view/common.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { speech, phrasesOf } from '../../app/language.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { MatchedTiming, TimingAnswer } from '../../../shared/schemas/timing.ts';
import { TIMING_METHODS, type TimingMethod } from '../../../shared/words.ts';
import { api, paths } from '../../api.ts';
import { timingMethodWords } from '../../app/describe.ts';
import { formatCourse, formatShortDate } from '../../app/format.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TableScroll } from '../../parts/table-scroll.tsx';

const t = phrasesOf('files', filesWords);
const common = phrasesOf('common', commonWords);

const actionWords = (): Record<MatchedTiming['action'], string> => ({
  set: t('put_in'),
  replace: t('replaces_the_time_there'),
  keep: t('kept_as_a_note_the'),
});

/** Gate, split and hand times from a CSV file: shows what would go where, then puts it in. */
export function TimingSection() {
  const [file, setFile] = useState<File | null>(null);
  const [method, setMethod] = useState<TimingMethod | ''>('');
  const [answer, setAnswer] = useState<TimingAnswer | null>(null);
  const [fault, setFault] = useState<Fault | null>(null);
  const [busy, setBusy] = useState(false);

  async function read(from: File | null, told: TimingMethod | '', apply: boolean) {
    setFile(from);
    setMethod(told);
    setFault(null);
    if (!from) return;
    setBusy(true);
    try {
      setAnswer(await api.timings(from, told || undefined, apply));
    } catch (error) {
      setAnswer(null);
      setFault(faultOf(error));
    } finally {
      setBusy(false);
    }
  }

  return (
    <section class="files-form" aria-labelledby="timing-head">
      <h2 id="timing-head">{t('times_from_a_file')}</h2>
      <p class="quiet small">{t('gates_splits_and_watches_as')}</p>
      <div class="drop-area">
        <label class="field">
          <span>{t('timing_file')}</span>
          <input
            type="file"
            accept=".csv,.txt,.tsv,text/csv"
            onChange={(event) => {
              void read(event.currentTarget.files?.[0] ?? null, method, false);
              event.currentTarget.value = '';
            }}
          />
        </label>
        <SelectField
          label={t('taken_by_where_the_file')}
          value={method}
          options={[
            { value: '' as const, label: common('not_said') },
            ...TIMING_METHODS.map((value) => ({ value, label: timingMethodWords(value) })),
          ]}
          onChange={(told) => void read(file, told, false)}
        />
      </div>
      {fault && <FaultBox fault={fault} />}
      {answer && (
        <div class="sheet" aria-live="polite">
          <h3>{file?.name}</h3>
          <Matched items={answer.matched} />
          <Unmatched answer={answer} />
          {answer.applied ? (
            <p>
              <strong>{t('times_put_in_the_repetitions')}</strong>
            </p>
          ) : (
            answer.matched.length > 0 && (
              <button type="button" class="primary" disabled={busy} onClick={() => void read(file, method, true)}>
                {busy
                  ? t('putting_in')
                  : t('put_in_the_times_of', { repetitions: common('repetitions', { n: answer.matched.length }) })}
              </button>
            )
          )}
        </div>
      )}
    </section>
  );
}

function Matched({ items }: { items: MatchedTiming[] }) {
  if (items.length === 0) return <p>{t('no_time_in_this_file')}</p>;
  return (
    <TableScroll label={t('times_and_the_repetitions_they')}>
      <table class="numbers">
        <thead>
          <tr>
            <th scope="col" class="word">
              {common('athlete_2')}
            </th>
            <th scope="col" class="word">
              {t('day')}
            </th>
            <th scope="col">{common('no')}</th>
            <th scope="col">{t('over')}</th>
            <th scope="col">
              {common('time')}
              <span class="unit">s</span>
            </th>
            <th scope="col" class="word">
              {t('taken_by')}
            </th>
            <th scope="col" class="word">
              {t('what_happens')}
            </th>
          </tr>
        </thead>
        <tbody>
          {items.map((item) => (
            <tr key={item.repetition_id}>
              <th scope="row" class="word">
                <a href={`#${paths.repetition(item.repetition_id)}`}>{item.athlete_name}</a>
              </th>
              <td class="word">{formatShortDate(item.session_date)}</td>
              <td>{item.repetition}</td>
              <td>{formatCourse(item.distance_m)}</td>
              <td>{item.time_s}</td>
              <td class="word">{item.method ? timingMethodWords(item.method) : common('not_said')}</td>
              <td class="word">{actionWords()[item.action]}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableScroll>
  );
}

function Unmatched({ answer }: { answer: TimingAnswer }) {
  const { unmatched, rejected, faults } = answer;
  if (unmatched.length + rejected.length + faults.length === 0) return null;
  return (
    <ul class="table-notes">
      {faults.map(speech.value.tell).map((item) => (
        <li key={item.code}>
          {item.message} <span class="quiet">{item.hint}</span>
        </li>
      ))}
      {unmatched.map((item) => (
        <li key={item.lines[0]}>{t('line', { lines: item.lines.join(', '), why: speech.value.because(item.why) })}</li>
      ))}
      {rejected.map((item) => (
        <li key={`${item.line} ${item.column}`}>
          {t('line_2', { line: item.line })}
          {item.column && `, ${item.column}`}
          {t('found_expected', {
            found: speech.value.because(item.found),
            expected: speech.value.because(item.expected),
          })}
        </li>
      ))}
    </ul>
  );
}
