import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { phrasesOf } from '../../../app/language.ts';
import { filmWords } from '../../../../shared/messages/en/view/film.ts';
import { useState } from 'preact/hooks';
import type { Contact } from '../../../../shared/analysis.ts';
import { type FilmClock, filmTime } from '../../../../shared/film-clock.ts';
import { formatQuantity } from '../../../app/format.ts';
import { instantWords, type Instant, instantOf } from './contact-instants.ts';
import type { OpenFilm } from './use-film.ts';

const common = phrasesOf('common', commonWords);

const t = phrasesOf('film', filmWords);

/** Width of a picture on the sheet, in its own pixels. */
const PICTURE_WIDTH = 360;

interface Picture {
  step: number;
  source: string;
  words: string;
}

interface FilmSheetProps {
  film: OpenFilm;
  clock: FilmClock;
  contacts: readonly Contact[];
  instant: Instant;
  title: string;
}

/** The same instant of every contact of a repetition, side by side. The pictures are made in the page and stay in it. */
export function FilmSheet({ film, clock, contacts, instant, title }: FilmSheetProps) {
  const [pictures, setPictures] = useState<Picture[]>([]);
  const [of, setOf] = useState<Instant>(instant);
  const [making, setMaking] = useState(false);
  const end = film.video && Number.isFinite(film.video.duration) ? film.video.duration : Infinity;
  const seen = contacts.flatMap((contact) => {
    const at = instantOf(contact, instant);
    const film_s = at === null ? -1 : filmTime(clock, at);
    return film_s >= 0 && film_s <= end ? [{ contact, film_s }] : [];
  });

  async function make() {
    setMaking(true);
    const before_s = film.at_s + (film.spacing?.shortest_s ?? 0) / 2;
    setOf(instant);
    const made: Picture[] = [];
    for (const { contact, film_s } of seen) {
      await film.showNearest(film_s);
      made.push({ step: contact.step, source: pictureOf(film.video!), words: words(contact) });
    }
    setPictures(made);
    setMaking(false);
    await film.show(before_s);
  }

  return (
    <div class="film-sheet">
      <p class="actions no-print">
        <button type="button" disabled={making || seen.length === 0} onClick={() => void make()}>
          {making ? t('making_sheet') : t('sheet_of_all', { n: seen.length, instant: instantWords(instant) })}
        </button>
      </p>
      {seen.length < contacts.length && (
        <p class="quiet small">{t('outside_film', { n: contacts.length - seen.length })}</p>
      )}
      {pictures.length > 0 && (
        <ol class="film-pictures" aria-label={t('every_instant', { title, instant: instantWords(of) })}>
          {pictures.map((picture) => (
            <li key={picture.step}>
              <figure>
                <img src={picture.source} alt={t('instant_of', { instant: instantWords(of), words: picture.words })} />
                <figcaption>{picture.words}</figcaption>
              </figure>
            </li>
          ))}
        </ol>
      )}
    </div>
  );
}

function words({ step, side, contact_time_ms, contact_time_ms_u }: Contact): string {
  const contact =
    contact_time_ms === null ? '' : `, ${formatQuantity('contact_time_ms', contact_time_ms, contact_time_ms_u)}`;
  return `${t('step_n', { step })}${side === 'unknown' ? '' : `, ${common(side)}`}${contact}`;
}

/** The frame on screen as a small picture. */
function pictureOf(video: HTMLVideoElement): string {
  const canvas = document.createElement('canvas');
  canvas.width = Math.min(PICTURE_WIDTH, video.videoWidth);
  canvas.height = Math.round((canvas.width * video.videoHeight) / video.videoWidth);
  canvas.getContext('2d')!.drawImage(video, 0, 0, canvas.width, canvas.height);
  return canvas.toDataURL('image/jpeg', 0.85);
}
