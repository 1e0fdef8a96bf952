import { speech } from '../../app/language.ts';
import { useState } from 'preact/hooks';
import type { Fault } from '../../../shared/fault.ts';
import type { MatchedTiming, TimingAnswer } from '../../../shared/schemas/timing.ts';
import { TIMING_METHODS, type TimingMethod } from '../../../shared/words.ts';
import { api, paths } from '../../api.ts';
import { count, timingMethodWords } from '../../app/describe.ts';
import { formatCourse, formatShortDate } from '../../app/format.ts';
import { faultOf } from '../../client.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { SelectField } from '../../parts/select-field.tsx';
import { TableScroll } from '../../parts/table-scroll.tsx';

const ACTION_WORDS: Record<MatchedTiming['action'], string> = {
  set: 'put in',
  replace: 'replaces the time there',
  keep: 'kept as a note: the time there is electronic',
};

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
      <h2 id="timing-head">Times from a file</h2>
      <p class="quiet small">
        Gates, splits and watches as CSV: athlete, repetition, distance, time, method; or one repetition a row with a
        column for each distance. Nothing is changed before you have seen what belongs where.
      </p>
      <div class="drop-area">
        <label class="field">
          <span>Timing file</span>
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
          label="Taken by, where the file does not say"
          value={method}
          options={[
            { value: '' as const, label: 'not said' },
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
              <strong>Times put in; the repetitions were measured anew.</strong>
            </p>
          ) : (
            answer.matched.length > 0 && (
              <button type="button" class="primary" disabled={busy} onClick={() => void read(file, method, true)}>
                {busy ? 'Putting in ...' : `Put in the times of ${count(answer.matched.length, 'repetition')}`}
              </button>
            )
          )}
        </div>
      )}
    </section>
  );
}

function Matched({ items }: { items: MatchedTiming[] }) {
  if (items.length === 0) return <p>No time in this file belongs to a stored repetition.</p>;
  return (
    <TableScroll label="Times and the repetitions they belong to">
      <table class="numbers">
        <thead>
          <tr>
            <th scope="col" class="word">
              athlete
            </th>
            <th scope="col" class="word">
              day
            </th>
            <th scope="col">no.</th>
            <th scope="col">over</th>
            <th scope="col">
              time<span class="unit">s</span>
            </th>
            <th scope="col" class="word">
              taken by
            </th>
            <th scope="col" class="word">
              what happens
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
              <td class="word">{item.method ? timingMethodWords(item.method) : 'not said'}</td>
              <td class="word">{ACTION_WORDS[item.action]}</td>
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
        <li key={item.lines[0]}>
          line {item.lines.join(', ')}: {item.why}
        </li>
      ))}
      {rejected.map((item) => (
        <li key={`${item.line} ${item.column}`}>
          line {item.line}
          {item.column && `, ${item.column}`}: found "{item.found}", expected {item.expected}
        </li>
      ))}
    </ul>
  );
}
