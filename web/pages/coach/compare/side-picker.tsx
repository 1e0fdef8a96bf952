import { phrasesOf } from '../../../app/language.ts';
import { compareWords } from '../../../../shared/messages/en/view/compare.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { addDays } from '../../../../shared/dates.ts';
import type { AthleteRecord } from '../../../../shared/schemas/coach/athlete-record.ts';
import type { SessionList, SessionWithRepetitions } from '../../../../shared/schemas/session.ts';
import { paths } from '../../../api.ts';
import { describeCourseShortly, sessionOption } from '../../../app/describe.ts';
import { useDirectory } from '../../../app/directory.ts';
import { formatShortDate, localToday } from '../../../app/format.ts';
import { useResource } from '../../../app/use-resource.ts';
import { SelectField } from '../../../parts/select-field.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { coachPaths } from '../coach-api.ts';
import { type ComparedKind, type KeyParts, readKey, writeKey } from './compare-keys.ts';

const common = phrasesOf('common', commonWords);
const t = phrasesOf('compare', compareWords);

/** Days before a focus that stand for 'before', as everywhere (dsp/athlete/block-change.ts). */
export const BEFORE_DAYS = 60;

interface SidePickerProps {
  letter: 'A' | 'B';
  kind: ComparedKind;
  value: string;
  onChange: (key: string) => void;
}

const chooseNow = () => ({ value: '', label: common('choose') });

/** Chooses one side: whose, then which session and repetition, or from when to when. */
export function SidePicker({ letter, kind, value, onChange }: SidePickerProps) {
  const parts = readKey(kind, value);
  const directory = useDirectory();
  const change = (changed: Partial<KeyParts>) => onChange(writeKey(kind, { ...parts, ...changed }));
  return (
    <fieldset class="compare-side">
      <legend>
        <span class={`compare-letter is-${letter.toLowerCase()}`}>{letter}</span>
      </legend>
      <SelectField
        label={common('athlete_3')}
        value={parts.athlete_id}
        options={[
          chooseNow(),
          ...(directory.athletes.value?.items ?? []).map(({ athlete_id, name }) => ({
            value: String(athlete_id),
            label: name,
          })),
        ]}
        onChange={(athlete_id) => change({ athlete_id, session_id: '', repetition_id: '' })}
      />
      {parts.athlete_id !== '' &&
        (kind === 'blocks' ? (
          <BlockFields parts={parts} change={change} />
        ) : (
          <SessionFields kind={kind} parts={parts} change={change} />
        ))}
    </fieldset>
  );
}

interface PartsProps {
  parts: KeyParts;
  change: (changed: Partial<KeyParts>) => void;
}

function SessionFields({ kind, parts, change }: PartsProps & { kind: ComparedKind }) {
  const sessions = useResource<SessionList>(`${paths.sessions}?athlete_id=${parts.athlete_id}`);
  const session = useResource<SessionWithRepetitions>(
    kind === 'repetitions' && parts.session_id !== '' ? paths.session(parts.session_id) : null,
  );
  const own = session.value?.repetitions.filter(
    (line) => String(line.athlete_id) === parts.athlete_id && line.analysis_id !== null,
  );
  return (
    <>
      <SelectField
        label={common('page_Session')}
        value={parts.session_id}
        options={[chooseNow(), ...(sessions.value?.items ?? []).map(sessionOption)]}
        onChange={(session_id) => change({ session_id, repetition_id: '' })}
      />
      {kind === 'repetitions' && parts.session_id !== '' && (
        <SelectField
          label={common('page_Repetition')}
          value={parts.repetition_id}
          options={[
            chooseNow(),
            ...(own ?? []).map((line) => ({
              value: String(line.repetition_id),
              label: `${line.order_number}: ${describeCourseShortly(line)}`,
            })),
          ]}
          onChange={(repetition_id) => change({ repetition_id })}
        />
      )}
    </>
  );
}

function BlockFields({ parts, change }: PartsProps) {
  const record = useResource<AthleteRecord>(coachPaths.athlete(parts.athlete_id));
  const spans = (record.value?.focuses ?? []).flatMap((focus) => [
    {
      label: t('from', { name: focus.name, from_date: formatShortDate(focus.from_date) }),
      from: focus.from_date,
      to: focus.to_date ?? localToday(),
    },
    {
      label: t('before', { name: focus.name }),
      from: addDays(focus.from_date, -BEFORE_DAYS),
      to: addDays(focus.from_date, -1),
    },
  ]);
  const chosen = spans.findIndex(({ from, to }) => from === parts.from && to === parts.to);
  return (
    <>
      {spans.length > 0 && (
        <SelectField
          label={t('block')}
          value={chosen < 0 ? '' : String(chosen)}
          options={[
            { value: '', label: t('own_dates') },
            ...spans.map(({ label }, index) => ({ value: String(index), label })),
          ]}
          onChange={(index) => index !== '' && change({ from: spans[Number(index)].from, to: spans[Number(index)].to })}
        />
      )}
      <TextField label={common('from')} type="date" value={parts.from} onChange={(from) => change({ from })} />
      <TextField label={common('to')} type="date" value={parts.to} onChange={(to) => change({ to })} />
    </>
  );
}
