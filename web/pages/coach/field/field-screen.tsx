import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { fieldWords } from '../../../../shared/messages/en/view/field.ts';
import { phrasesOf } from '../../../app/language.ts';
import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { stayAwake } from '../../../app/stay-awake.ts';
import type { FieldView } from '../../../../shared/schemas/coach/field-view.ts';
import { formatShortDate } from '../../../app/format.ts';
import { Cautions } from '../../../parts/cautions.tsx';
import { EmptyState } from '../../../parts/empty-state.tsx';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { AthleteCard } from './athlete-card.tsx';
import { AthleteStrip } from './athlete-strip.tsx';
import { firstName } from './first-name.ts';
import { FieldHelp } from './field-help.tsx';
import { Freshness } from './freshness.tsx';
import { StopwatchButton } from './stopwatch-button.tsx';
import { useChosenAthlete } from './use-chosen-athlete.ts';
import type { FieldState } from './use-field.ts';

const common = phrasesOf('common', commonWords);

const t = phrasesOf('field', fieldWords);

interface FieldScreenProps {
  session_id: string;
  field: FieldState;
  /** A replay: nothing can be rated or timed, and every result says so. */
  replayed?: boolean;
  /** Above the athletes. */
  children?: ComponentChildren;
}

/** Every athlete's last repetition, and whoever just ran at once. */
export function FieldScreen({ session_id, field, replayed = false, children }: FieldScreenProps) {
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
      {children}
      {view.athletes.length === 0 ? (
        <NobodyYet session_id={session_id} />
      ) : (
        <Athletes view={view} field={field} replayed={replayed} />
      )}
      <FieldHelp />
      <Cautions />
    </>
  );
}

interface AthletesProps {
  view: FieldView;
  field: FieldState;
  replayed: boolean;
}

function Athletes({ view, field, replayed }: AthletesProps) {
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
        replayed={replayed}
        onGiven={field.reload}
      />
      <div class={replayed ? 'field-steps is-replayed no-print' : 'field-steps no-print'}>
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
        {!replayed && <StopwatchButton athlete={athlete} session_id={view.session_id} />}
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
