import { phrasesOf } from '../../../app/language.ts';
import { compareWords } from '../../../../shared/messages/en/view/compare.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import '../coach.css';
import { useEffect } from 'preact/hooks';
import { PROFILE_QUANTITIES, type ProfileQuantity } from '../../../../shared/fields.ts';
import { COMPARED_KINDS } from '../../../../shared/coach-words.ts';
import type { ComparedSide, Comparison } from '../../../../shared/schemas/coach/comparison.ts';
import { displayOf, formatShortDate } from '../../../app/format.ts';
import { preferences } from '../../../app/preferences.ts';
import { type PageProps, setQuery } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { Choice } from '../../../parts/choice.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { SelectField } from '../../../parts/select-field.tsx';
import { describeCondition } from '../course/course-page.tsx';
import { CautionList } from '../parts/caution-list.tsx';
import { isWhole, readKey } from './compare-keys.ts';
import { type CompareAxis, ComparePlot } from './compare-plot.tsx';
import { DifferenceTable, StepTable } from './compare-tables.tsx';
import { SidePicker } from './side-picker.tsx';
import { useFirstChoice } from './use-first-choice.ts';

const common = phrasesOf('common', commonWords);
const t = phrasesOf('compare', compareWords);

/** Any two repetitions, sessions or blocks over each other, and how sure every difference is. */
export default function ComparePage({ query }: PageProps) {
  const asked = query.get('kind');
  const kind = COMPARED_KINDS.find((one) => one === asked) ?? 'repetitions';
  const [a, b] = [query.get('a') ?? '', query.get('b') ?? ''];
  useFirstChoice(kind, query);
  // The other side is mostly the same athlete's.
  useEffect(() => {
    const { athlete_id } = readKey(kind, a);
    if (athlete_id !== '' && b === '') setQuery('b', athlete_id);
  }, [a, b, kind]);
  const whole = isWhole(kind, a) && isWhole(kind, b);
  const condition = query.get('condition');
  const question = new URLSearchParams({
    kind,
    a,
    b,
    length: preferences.value.length,
    ...(condition === null ? {} : { condition }),
  });
  const comparison = useResource<Comparison>(whole ? `/coach/comparison?${question}` : null);
  return (
    <>
      <h1>{common('compare')}</h1>
      <div class="no-print">
        <Choice
          legend={t('what_is_compared')}
          quiet
          value={kind}
          options={COMPARED_KINDS.map((value) => ({ value, label: t(`kind_${value}`) }))}
          onChange={(next) => {
            const { athlete_id } = readKey(kind, a);
            const other = readKey(kind, b).athlete_id;
            setQuery('kind', next);
            setQuery('a', athlete_id || null);
            setQuery('b', other || null);
            setQuery('condition', null);
          }}
        />
        <div class="compare-sides">
          <SidePicker letter="A" kind={kind} value={a} onChange={(key) => setQuery('a', key)} />
          <SidePicker letter="B" kind={kind} value={b} onChange={(key) => setQuery('b', key)} />
        </div>
      </div>
      {whole ? (
        <ResourceView resource={comparison} name={t('both_sides')}>
          {(value) => <Compared comparison={value} query={query} />}
        </ResourceView>
      ) : (
        <p class="quiet">{t('choose_both_sides_any_athletes')}</p>
      )}
    </>
  );
}

function Compared({ comparison, query }: { comparison: Comparison; query: URLSearchParams }) {
  const { a, b, conditions, condition, notes, quantities } = comparison;
  const measured = PROFILE_QUANTITIES.filter((name) =>
    [...a.steps, ...b.steps].some((step) => step.values[name] !== undefined),
  );
  const quantity = measured.find((name) => name === query.get('quantity')) ?? measured[0];
  const by: CompareAxis = query.get('by') === 'distance' ? 'distance' : 'step';
  return (
    <>
      <div class="compare-sides compare-names">
        <SideName letter="A" side={a} />
        <SideName letter="B" side={b} />
      </div>
      {conditions.length > 1 && (
        <div class="compare-condition no-print">
          <SelectField
            label={common('effort_and_course')}
            value={condition?.key ?? ''}
            options={conditions.map((item) => ({
              value: item.key,
              label: `${describeCondition(item)} (${item.repetitions})`,
            }))}
            onChange={(key) => setQuery('condition', key)}
          />
        </div>
      )}
      {condition && conditions.length === 1 && (
        <p class="quiet">{t('both_at', { condition: describeCondition(condition) })}</p>
      )}
      <ul class="compare-notes">
        {notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
      {quantities.length > 0 && (
        <section aria-labelledby="differences">
          <h2 id="differences">{a.returning || b.returning ? t('side_by_side') : t('what_differs')}</h2>
          <DifferenceTable comparison={comparison} />
          <p class="quiet small" hidden={a.returning || b.returning}>
            {t('b_a_with_what_measuring', { quantities: common('n_quantities', { n: quantities.length }) })}
          </p>
        </section>
      )}
      {quantity && (
        <section aria-labelledby="along">
          <h2 id="along">{t('along_the_run')}</h2>
          <div class="compare-condition no-print">
            <SelectField<ProfileQuantity>
              label={common('quantity')}
              value={quantity}
              options={measured.map((name) => ({ value: name, label: displayOf(name).label }))}
              onChange={(name) => setQuery('quantity', name)}
            />
            <Choice
              legend={t('along')}
              quiet
              value={by}
              options={[
                { value: 'step', label: t('by_step') },
                { value: 'distance', label: t('by_distance') },
              ]}
              onChange={(next) => setQuery('by', next === 'step' ? null : next)}
            />
          </div>
          <ComparePlot comparison={comparison} quantity={quantity} by={by} />
          <StepTable comparison={comparison} quantity={quantity} />
        </section>
      )}
      <CautionList cautions={comparison.cautions} />
    </>
  );
}

function SideName({ letter, side }: { letter: 'A' | 'B'; side: ComparedSide }) {
  return (
    <p>
      <span class={`compare-letter is-${letter.toLowerCase()}`}>{letter}</span>{' '}
      <a href={`#/athletes/${side.athlete_id}`}>
        <strong>{side.name}</strong>
      </a>
      , {side.title}
      <span class="quiet">
        {t('of', {
          repetitions: common('repetitions', { n: side.repetitions }),
          sessions: common('n_sessions', { n: side.sessions }),
          contacts: common('n_contacts', { n: side.contacts }),
        })}
        {side.first_date && side.first_date !== side.last_date
          ? t('to', { first_date: formatShortDate(side.first_date), last_date: formatShortDate(side.last_date) })
          : ''}
      </span>
    </p>
  );
}
