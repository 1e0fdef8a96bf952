import { phrasesOf } from '../../../app/language.ts';
import { filmWords } from '../../../../shared/messages/en/view/film.ts';
import { useEffect } from 'preact/hooks';
import type { Contact } from '../../../../shared/analysis.ts';
import { type FilmClock, filmClock, filmTime, recordingTime } from '../../../../shared/film-clock.ts';
import type { FilmMark, FilmTie } from '../../../../shared/schemas/coach/film.ts';
import { formatNumber } from '../../../app/format.ts';
import { FaultBox } from '../../../parts/fault-box.tsx';
import { coachApi } from '../coach-api.ts';
import { useAttempt } from '../use-attempt.ts';
import { instantWords, type Instant, instantError, instantOf, tieOf } from './contact-instants.ts';
import { FrameControls } from './frame-controls.tsx';
import { FilmSheet } from './film-sheet.tsx';
import { MarkList } from './mark-list.tsx';
import { type OpenFilm, useFilm } from './use-film.ts';

const t = phrasesOf('film', filmWords);

interface FilmPanelProps {
  title: string;
  repetition_id: number;
  contacts: readonly Contact[];
  ties: readonly FilmTie[];
  file: File | null;
  step: number;
  instant: Instant;
  onFile: (file: File) => void;
  onTied: () => Promise<void>;
}

/** One film of one repetition: open it, tie it by marking a touchdown, and it follows the contact that is chosen. */
export function FilmPanel(props: FilmPanelProps) {
  const { title, repetition_id, contacts, ties, file, step, instant, onFile, onTied } = props;
  const film = useFilm(file);
  const { fault, attempt } = useAttempt(onTied);
  const tie = tieOf(ties, file);
  const marks = tie?.marks ?? [];
  const clock = film.spacing === null ? null : filmClock(marks, film.spacing.longest_s, instantError(contacts));
  const contact = contacts.find((one) => one.step === step) ?? null;
  const wanted_s = contact && instantOf(contact, instant);

  // The film follows the chosen contact, and a mark that moved it.
  useEffect(() => {
    if (clock && wanted_s !== null) void film.showNearest(filmTime(clock, wanted_s));
  }, [film.spacing, clock?.offset_s, clock?.rate, wanted_s]);

  const keep = (next: FilmMark[]) =>
    attempt(() =>
      coachApi.setFilmTie(repetition_id, {
        file_name: file!.name,
        file_bytes: file!.size,
        frame_s: film.spacing!.longest_s,
        marks: next,
      }),
    );
  const mark = (event: FilmMark['event'], recording_s: number) =>
    keep([
      ...marks.filter((one) => one.step !== step || one.event !== event),
      { step, event, film_s: film.at_s, recording_s },
    ]);

  return (
    <section class="film-panel" aria-label={title}>
      <h2>{title}</h2>
      <label class="film-file no-print">
        <span class={file ? 'quiet' : undefined}>{file ? file.name : t('open_a_film_of_this')}</span>
        <input
          type="file"
          accept="video/*"
          onChange={(event) => {
            const [chosen] = event.currentTarget.files ?? [];
            if (chosen) onFile(chosen);
          }}
        />
      </label>
      {!file && ties.length > 0 && (
        <p class="quiet">{t('tied_before_open_the_same', { ties: ties.map((one) => one.file_name).join(', ') })}</p>
      )}
      {fault && <FaultBox fault={fault} />}
      {film.trouble && <p role="alert">{film.trouble}</p>}
      {film.source && (
        <>
          <video ref={film.ref} class="film" src={film.source} muted playsInline preload="auto" />
          {film.spacing === null ? (
            !film.trouble && (
              <p class="quiet" role="status">
                {t('measuring_the_time_from_frame')}
              </p>
            )
          ) : (
            <>
              <FrameControls film={film} />
              <p class="film-where" aria-live="polite">
                {whereWords(film, clock, wanted_s, step, instant)}
              </p>
              {contact && instant !== 'middle' && wanted_s !== null && (
                <p class="actions no-print">
                  <button
                    type="button"
                    class={clock ? undefined : 'primary'}
                    onClick={() => void mark(instant, wanted_s)}
                  >
                    {t('this_frame_is_the_of', { instant: instantWords(instant), step })}
                  </button>
                </p>
              )}
              <MarkList
                marks={marks}
                clock={clock}
                frame_s={film.spacing.longest_s}
                onChange={(next) => void keep(next)}
              />
              {clock && <FilmSheet film={film} clock={clock} contacts={contacts} instant={instant} title={title} />}
            </>
          )}
        </>
      )}
    </section>
  );
}

/** `Frame at 3.417 s of the film: 4 ms after the touchdown of step 7.` */
function whereWords(
  { at_s, spacing }: OpenFilm,
  clock: FilmClock | null,
  wanted_s: number | null,
  step: number,
  instant: Instant,
): string {
  const [shortest, longest] = [spacing!.shortest_s, spacing!.longest_s].map((s) => formatNumber(s * 1000, 1));
  const frame = t('frame_at_s_of_the', { at_s: formatNumber(at_s, 3), shortest, longest });
  if (!clock) return t('not_tied_yet_find_the', { frame });
  if (wanted_s === null) return t('the_of_step_was_not', { frame, instant: instantWords(instant), step });
  const off_ms = (recordingTime(clock, at_s) - wanted_s) * 1000;
  const words = t('the_of_step', { instant: instantWords(instant), step });
  if (Math.abs(off_ms) < 0.5) return t('at', { frame, instant_words: words });
  return t(off_ms > 0 ? 'off_after' : 'off_before', { frame, ms: formatNumber(Math.abs(off_ms), 0), instant: words });
}
