import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';
import '../coach.css';
import { useEffect, useRef, useState } from 'preact/hooks';
import { stayAwake } from '../../../app/stay-awake.ts';
import type { FieldAthlete, FieldView } from '../../../../shared/schemas/coach/field-view.ts';
import { formatShortDate } from '../../../app/format.ts';
import type { PageProps } from '../../../app/router.ts';
import { Cautions } from '../../../parts/cautions.tsx';
import { EmptyState } from '../../../parts/empty-state.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { AthleteCard } from './athlete-card.tsx';
import { AthleteStrip } from './athlete-strip.tsx';
import { firstName } from './first-name.ts';
import { FieldHelp } from './field-help.tsx';
import { Freshness } from './freshness.tsx';
import { speak, speaking } from './speak.ts';
import { StopwatchButton } from './stopwatch-button.tsx';
import { type FieldState, useField } from './use-field.ts';

const common = phrasesOf('common', commonWords);

const t = phrasesOf('field', fieldWords);

/** Between repetitions: who just ran, what was different, who is next. */
export default function FieldPage({ params }: PageProps) {
  const { session_id } = params;
  const field = useField(session_id);
  const { view, fault } = field;
  useEffect(stayAwake, []);
  if (!view) {
    return fault ? (
      <FaultBox fault={fault} onRetry={field.reload} />
    ) : (
      <p class="quiet" role="status">
        {common('reading', { what: t('the_session') })}
      </p>
    );
  }
  return (
    <>
      <header class="field-head">
        <h1>
          {view.title || t('session')} <span class="quiet">{formatShortDate(view.session_date)}</span>
        </h1>
        <Freshness answered_ms={field.answered_ms} fault={fault} onRetry={field.reload} />
      </header>
      {view.athletes.length === 0 ? <NobodyYet session_id={session_id} /> : <Athletes view={view} field={field} />}
      <FieldHelp />
      <Cautions />
    </>
  );
}

function Athletes({ view, field }: { view: FieldView; field: FieldState }) {
  const { chosen, choose, step } = useChosenAthlete(view);
  const index = view.athletes.findIndex((athlete) => athlete.athlete_id === chosen);
  const athlete = view.athletes[index];
  const before = view.athletes[(index - 1 + view.athletes.length) % view.athletes.length];
  const after = view.athletes[(index + 1) % view.athletes.length];
  return (
    <div class="field-screen">
      <AthleteStrip view={view} chosen={chosen} ahead_ms={field.ahead_ms} onChoose={choose} />
      <AthleteCard
        key={athlete.athlete_id}
        athlete={athlete}
        session_id={view.session_id}
        ahead_ms={field.ahead_ms}
        onGiven={field.reload}
      />
      <div class="field-steps no-print">
        {view.athletes.length > 1 && (
          <button
            type="button"
            class="step-back"
            onClick={() => step(-1)}
            aria-label={t('previous_athlete', { name: before.name })}
          >
            <span aria-hidden="true">‹</span>
          </button>
        )}
        <StopwatchButton athlete={athlete} session_id={view.session_id} />
        {view.athletes.length > 1 && (
          <button
            type="button"
            class="primary"
            onClick={() => step(1)}
            aria-label={t('next_athlete', { name: after.name })}
          >
            {firstName(after.name)} <span aria-hidden="true">›</span>
          </button>
        )}
      </div>
    </div>
  );
}

/** Name of an athlete's newest result, so that a new one is noticed once; changes of the same result are not new. */
function resultKey(athlete: FieldAthlete | undefined): string | null {
  if (!athlete?.latest || athlete.latest.state === 'recorded') return null;
  return `${athlete.athlete_id}.${athlete.latest.repetition_id}`;
}

/**
 * Whoever just ran shows at once; a tap shows someone else until the next result comes. While the coach writes a note,
 * nothing jumps.
 */
function useChosenAthlete(view: FieldView) {
  const first = view.latest_athlete_id ?? view.athletes[0].athlete_id;
  const [chosen, setChosen] = useState(first);
  const latest = view.athletes.find((athlete) => athlete.athlete_id === view.latest_athlete_id);
  const key = resultKey(latest);
  const shown = useRef(key);
  useEffect(() => {
    if (key === null || key === shown.current || !latest) return;
    shown.current = key;
    const writing = document.activeElement instanceof HTMLTextAreaElement;
    if (!writing) setChosen(latest.athlete_id);
    if (speaking.peek()) speak(`${latest.name}. ${latest.sentence} ${latest.verdict.next.text}`);
  }, [key, latest]);
  const present = view.athletes.some((athlete) => athlete.athlete_id === chosen) ? chosen : first;
  const step = (by: number) => {
    const index = view.athletes.findIndex((athlete) => athlete.athlete_id === present);
    setChosen(view.athletes[(index + by + view.athletes.length) % view.athletes.length].athlete_id);
  };
  return { chosen: present, choose: setChosen, step };
}

function NobodyYet({ session_id }: { session_id: string }) {
  return (
    <EmptyState title={t('nobody_yet')}>
      <p>{t('nobody_yet_why')}</p>
      <p class="actions">
        <a class="button primary" href={`#/plan/${session_id}`}>
          {t('plan_the_session')}
        </a>
        <a class="button" href="#/files">
          {t('files_in')}
        </a>
      </p>
    </EmptyState>
  );
}
