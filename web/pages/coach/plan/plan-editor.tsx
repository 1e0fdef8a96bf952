import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { planWords } from '../../../../shared/messages/en/view/plan.ts';
import { useState } from 'preact/hooks';
import type { CoachSettings } from '../../../../shared/schemas/coach/coach-settings.ts';
import type { PlanSet, PlanTemplate, SessionPlan } from '../../../../shared/schemas/coach/plan.ts';
import type { Fault } from '../../../../shared/fault.ts';
import type { Session } from '../../../../shared/schemas/session.ts';
import { api } from '../../../api.ts';
import { useDirectory } from '../../../app/directory.ts';
import { go } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { faultOf } from '../../../client.ts';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { SelectField } from '../../../parts/select-field.tsx';
import { TextField } from '../../../parts/text-field.tsx';
import { offerUndo } from '../../../parts/undo.tsx';
import { localToday } from '../../../app/format.ts';
import { coachApi, coachPaths } from '../coach-api.ts';
import { AthletePicker } from './athlete-picker.tsx';
import { LimitsEditor } from './limits-editor.tsx';
import { PlanWarnings } from './plan-warnings.tsx';
import { SetRow } from './set-row.tsx';
import { TemplateChoice } from './template-choice.tsx';
import { TotalsBar } from './totals-bar.tsx';
import { usePlanCheck } from './use-plan-check.ts';

const t = phrasesOf('plan', planWords);
const common = phrasesOf('common', commonWords);

interface PlanEditorProps {
  /** Null: the session is made when the plan is kept. */
  session: Session | null;
  plan: SessionPlan | null;
  onKept?: (plan: SessionPlan) => void;
}

interface Draft {
  session_date: string;
  title: string;
  group_id: number | null;
  template: string | null;
  sets: PlanSet[];
  athlete_ids: number[];
}

/** Plans one session: who, what, how much, against the coach's own limits. */
export function PlanEditor({ session, plan, onKept }: PlanEditorProps) {
  const directory = useDirectory();
  const templates = useResource<{ items: PlanTemplate[] }>(coachPaths.templates);
  const settings = useResource<{
    settings: CoachSettings;
    defaults: CoachSettings;
    sources: Record<string, string>;
  }>(coachPaths.settings);
  const [draft, setDraft] = useState<Draft>(() => ({
    session_date: session?.session_date ?? localToday(),
    title: session?.title ?? '',
    group_id: session?.group_id ?? null,
    template: plan?.template ?? null,
    sets: plan?.sets ?? [],
    athlete_ids: plan?.athlete_ids ?? [],
  }));
  const [changed, setChanged] = useState(false);
  const [fault, setFault] = useState<Fault | null>(null);
  const [keeping, setKeeping] = useState(false);
  const limits = settings.value?.settings.plan_limits ?? null;

  const change = (part: Partial<Draft>) => {
    setDraft((old) => ({ ...old, ...part }));
    setChanged(true);
  };
  const changeSet = (index: number, set: PlanSet | null) =>
    change({
      sets: set ? draft.sets.map((old, i) => (i === index ? set : old)) : draft.sets.filter((_, i) => i !== index),
    });

  const { session_date, sets, athlete_ids } = draft;
  const check = usePlanCheck({ session_date, sets, athlete_ids }, plan?.check ?? null, limits);

  const keepPlan = async (then: (session_id: number) => void) => {
    setKeeping(true);
    setFault(null);
    try {
      const fields = {
        session_date: draft.session_date,
        title: draft.title || t('speed_session'),
        group_id: draft.group_id,
      };
      const stored = session ? await api.changeSession(session.session_id, fields) : await api.addSession(fields);
      const kept = await coachApi.setPlan(stored.session_id, {
        template: draft.template,
        sets: draft.sets,
        athlete_ids: draft.athlete_ids,
      });
      onKept?.(kept);
      setChanged(false);
      then(stored.session_id);
    } catch (error) {
      setFault(faultOf(error));
    } finally {
      setKeeping(false);
    }
  };

  const pickTemplate = (template: PlanTemplate) => {
    const before = draft;
    change({
      template: template.key,
      sets: template.sets,
      title: draft.title || (template.sets.length ? template.name : ''),
    });
    if (before.sets.length > 0) {
      offerUndo(t('sets_replaced_by', { name: template.name }), async () => setDraft(before));
    }
  };

  return (
    <>
      <div class="page-head">
        <h1>{session ? common('page_Plan') : t('new_plan')}</h1>
        <div class="actions">
          <button
            type="button"
            class={changed || !session ? 'primary' : undefined}
            disabled={keeping || (!changed && session !== null)}
            onClick={() => void keepPlan((id) => !session && go(`/plan/${id}`))}
          >
            {changed || !session ? t('keep_plan') : t('plan_is_kept')}
          </button>
          <button type="button" disabled={keeping} onClick={() => void keepPlan((id) => go(`/field/${id}`))}>
            {t('to_the_field')}
          </button>
        </div>
      </div>
      {fault && <FaultBox fault={fault} />}
      <TotalsBar totals={check?.totals ?? null} limits={limits} unit={unitOf(draft.sets)} />
      <div class="field-grid wide">
        <TextField
          label={common('date_2')}
          type="date"
          value={draft.session_date}
          onChange={(value) => change({ session_date: value })}
          required
        />
        <TextField
          label={common('title')}
          value={draft.title}
          onChange={(title) => change({ title })}
          placeholder={t('speed_session')}
        />
        <SelectField
          label={common('group_2')}
          value={draft.group_id === null ? '' : String(draft.group_id)}
          options={[
            { value: '', label: common('no_group') },
            ...(directory.groups.value?.items ?? []).map(({ group_id, name }) => ({
              value: String(group_id),
              label: name,
            })),
          ]}
          onChange={(value) => {
            const group = directory.groups.value?.items.find((item) => String(item.group_id) === value);
            change({
              group_id: group?.group_id ?? null,
              athlete_ids: group && group.athlete_ids.length > 0 ? group.athlete_ids : draft.athlete_ids,
            });
          }}
        />
      </div>
      <AthletePicker
        athletes={directory.athletes.value?.items ?? []}
        chosen={draft.athlete_ids}
        onChange={(ids) => change({ athlete_ids: ids })}
      />
      <h2>{common('sets')}</h2>
      <TemplateChoice templates={templates.value?.items ?? []} chosen={draft.template} onPick={pickTemplate} />
      <ol class="plan-sets">
        {draft.sets.map((set, index) => (
          <SetRow
            key={index}
            number={index + 1}
            set={set}
            onChange={(next) => changeSet(index, next)}
            onDelete={() => {
              const before = draft.sets;
              changeSet(index, null);
              offerUndo(t('set_deleted', { index: index + 1 }), async () => change({ sets: before }));
            }}
            onMove={index > 0 ? () => change({ sets: swap(draft.sets, index) }) : undefined}
          />
        ))}
      </ol>
      <p class="actions">
        <button type="button" onClick={() => change({ sets: [...draft.sets, draft.sets.at(-1) ?? FIRST_SET] })}>
          {t('add_a_set')}
        </button>
      </p>
      {check && <PlanWarnings check={check} />}
      {settings.value && (
        <LimitsEditor
          settings={settings.value.settings}
          defaults={settings.value.defaults}
          sources={settings.value.sources}
          onKept={(kept) => settings.set({ ...settings.value!, settings: kept })}
        />
      )}
    </>
  );
}

/** What a new set starts as: one repetition, for the coach to change. */
const FIRST_SET: PlanSet = {
  kind: 'technique',
  repetitions: 1,
  distance_m: 20,
  distance_unit: 'm',
  start_style: 'standing',
  effort_percent: 60,
  rest_s: 120,
  note: '',
};

/** Totals are shown in yards when every set is written in yards. */
function unitOf(sets: PlanSet[]): 'yd' | 'm' {
  return sets.length > 0 && sets.every((set) => set.distance_unit === 'yd') ? 'yd' : 'm';
}

function swap(sets: PlanSet[], index: number): PlanSet[] {
  const next = [...sets];
  [next[index - 1], next[index]] = [next[index], next[index - 1]];
  return next;
}
