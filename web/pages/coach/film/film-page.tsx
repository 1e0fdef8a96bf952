import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { phrasesOf } from '../../../app/language.ts';
import { filmWords } from '../../../../shared/messages/en/view/film.ts';
import '../coach.css';
import { useState } from 'preact/hooks';
import type { FilmTie } from '../../../../shared/schemas/coach/film.ts';
import type { RepetitionLine, RepetitionProfile } from '../../../../shared/schemas/repetition.ts';
import { paths } from '../../../api.ts';
import { describeCourseShortly } from '../../../app/describe.ts';
import { useDirectory } from '../../../app/directory.ts';
import { formatNumber, formatQuantity, formatShortDate, formatTime } from '../../../app/format.ts';
import { type PageProps, setQuery } from '../../../app/router.ts';
import { useResource } from '../../../app/use-resource.ts';
import { Choice } from '../../../parts/choice.tsx';
import { ResourceView } from '../../../parts/resource-view.tsx';
import { SelectField } from '../../../parts/select-field.tsx';
import { coachPaths } from '../coach-api.ts';
import { instantWords, INSTANTS, type Instant } from './contact-instants.ts';
import { FilmPanel } from './film-panel.tsx';

const common = phrasesOf('common', commonWords);

const t = phrasesOf('film', filmWords);

/** A film beside the contacts of a repetition: from contact to contact on the exact frame, and beside another repetition. */
export default function FilmPage({ params, query }: PageProps) {
  const repetition = useResource<RepetitionLine>(paths.repetition(params.repetition_id));
  const { athleteName } = useDirectory();
  return (
    <ResourceView resource={repetition} name={t('the_repetition')}>
      {(line) => (
        <>
          <p class="trail no-print">
            <a href={`#${paths.repetition(line.repetition_id)}`}>
              {t('repetition', { order_number: line.order_number })}
            </a>
          </p>
          <h1>{t('film_repetition', { name: athleteName(line.athlete_id), order_number: line.order_number })}</h1>
          <p class="quiet no-print">{t('a_film_is_opened_on')}</p>
          <Films line={line} other={query.get('beside')} />
        </>
      )}
    </ResourceView>
  );
}

function Films({ line, other }: { line: RepetitionLine; other: string | null }) {
  const own = useRepetitionFilm(line.repetition_id);
  const beside = useRepetitionFilm(other === null ? null : Number(other));
  const repetitions = useResource<{ items: RepetitionLine[] }>(`/repetitions?athlete_id=${line.athlete_id}`);
  const [step, setStep] = useState(1);
  const [instant, setInstant] = useState<Instant>('touchdown');
  const [files, setFiles] = useState<{ own: File | null; beside: File | null }>({ own: null, beside: null });
  const contacts = own.profile.value?.contacts ?? [];
  const contact = contacts.find((one) => one.step === step);
  const last = contacts.at(-1)?.step ?? 1;
  const like = likeRepetitions(line, repetitions.value?.items ?? []);
  const besideLine = like.find((one) => String(one.repetition_id) === other) ?? null;
  // One film may hold both repetitions.
  const sameFilm = files.own && beside.ties.value?.items.some((tie) => tie.file_name === files.own!.name);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: keys for what the buttons inside do as well
    <div
      onKeyDown={(event) => {
        if (event.target instanceof HTMLInputElement || event.target instanceof HTMLSelectElement) return;
        if (event.key === 'n') setStep(Math.min(last, step + 1));
        if (event.key === 'p') setStep(Math.max(1, step - 1));
      }}
    >
      <div class="film-contact no-print">
        <button type="button" disabled={step <= 1} onClick={() => setStep(step - 1)}>
          {t('contact_before')}
        </button>
        <p aria-live="polite">
          <strong>{t('step_of', { step, last })}</strong>
          {contact && (
            <>
              {contact.side === 'unknown' ? '' : `, ${common(contact.side)}`}
              {contact.contact_time_ms !== null &&
                `, ${formatQuantity('contact_time_ms', contact.contact_time_ms, contact.contact_time_ms_u)}`}
            </>
          )}
        </p>
        <button type="button" disabled={step >= last} onClick={() => setStep(step + 1)}>
          {t('next_contact')}
        </button>
        <Choice
          legend={t('instant')}
          quiet
          value={instant}
          options={INSTANTS.map((value) => ({ value, label: instantWords(value) }))}
          onChange={setInstant}
        />
        <SelectField
          label={t('beside')}
          value={other ?? ''}
          options={[
            { value: '', label: t('no_other_repetition') },
            ...like.map((one, index) => ({ value: String(one.repetition_id), label: besideWords(one, index === 0) })),
          ]}
          onChange={(id) => setQuery('beside', id || null)}
        />
      </div>
      <div class="film-panels">
        <FilmPanel
          title={t('this_repetition')}
          repetition_id={line.repetition_id}
          contacts={contacts}
          ties={own.ties.value?.items ?? []}
          file={files.own}
          step={step}
          instant={instant}
          onFile={(file) => setFiles((old) => ({ ...old, own: file }))}
          onTied={own.ties.reload}
        />
        {besideLine && (
          <FilmPanel
            title={t('repetition_of', {
              order_number: besideLine.order_number,
              session_date: formatShortDate(besideLine.session_date),
            })}
            repetition_id={besideLine.repetition_id}
            contacts={beside.profile.value?.contacts ?? []}
            ties={beside.ties.value?.items ?? []}
            file={files.beside ?? (sameFilm ? files.own : null)}
            step={step}
            instant={instant}
            onFile={(file) => setFiles((old) => ({ ...old, beside: file }))}
            onTied={beside.ties.reload}
          />
        )}
      </div>
    </div>
  );
}

function useRepetitionFilm(repetition_id: number | null) {
  return {
    profile: useResource<RepetitionProfile>(repetition_id === null ? null : paths.profile(repetition_id)),
    ties: useResource<{ items: FilmTie[] }>(repetition_id === null ? null : coachPaths.films(repetition_id)),
  };
}

/** The athlete's repetitions over the same course, fastest first; those without a time last. */
function likeRepetitions(line: RepetitionLine, all: readonly RepetitionLine[]): RepetitionLine[] {
  return all
    .filter((one) => one.repetition_id !== line.repetition_id && one.analysis_id !== null)
    .filter((one) => one.course_distance_m === line.course_distance_m)
    .sort((a, b) => (a.course_time_s ?? Infinity) - (b.course_time_s ?? Infinity));
}

function besideWords(line: RepetitionLine, best: boolean): string {
  const time = line.course_time_s === null ? '' : `, ${formatTime(line.course_time_s)}`;
  const speed = line.figures?.speed_max_mps;
  return t('repetition_2', {
    best: best && line.course_time_s !== null ? t('the_best') : '',
    session_date: formatShortDate(line.session_date),
    order_number: line.order_number,
    time,
    speed: speed ? `, ${formatNumber(speed, 2)} m/s` : '',
    line: describeCourseShortly(line),
  });
}
