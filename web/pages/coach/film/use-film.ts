import { phrasesOf } from '../../../app/language.ts';
import { filmWords } from '../../../../shared/messages/en/view/film.ts';
import { useEffect, useRef, useState } from 'preact/hooks';
import {
  type FrameSpacing,
  learnDuration,
  measureFrameSpacing,
  showFrameAt,
  showNearestFrame,
  showNextFrame,
} from './frames.ts';

const t = phrasesOf('film', filmWords);

export interface OpenFilm {
  /** For the video element. */
  ref: (video: HTMLVideoElement | null) => void;
  video: HTMLVideoElement | null;
  source: string;
  /** Time from frame to frame; null until it was measured. */
  spacing: FrameSpacing | null;
  /** Time of the frame on screen, s. */
  at_s: number;
  /** Why the film cannot be shown; empty when it can. */
  trouble: string;
  show: (time_s: number) => Promise<number>;
  /** The frame nearest to a time of the film. */
  showNearest: (time_s: number) => Promise<number>;
  step: (direction: 1 | -1) => Promise<void>;
}

/** A film of this device opened in the page: nothing of it is sent anywhere. */
export function useFilm(file: File | null): OpenFilm {
  const [source, setSource] = useState('');
  const [video, setVideo] = useState<HTMLVideoElement | null>(null);
  const [spacing, setSpacing] = useState<FrameSpacing | null>(null);
  const [at_s, setAt] = useState(0);
  const [trouble, setTrouble] = useState('');
  /** Moves happen one after the other; of several that wait only the last is made. */
  const moves = useRef({ running: Promise.resolve() as Promise<unknown>, latest: 0 });

  useEffect(() => {
    setSpacing(null);
    setTrouble('');
    if (!file) return setSource('');
    const url = URL.createObjectURL(file);
    setSource(url);
    return () => URL.revokeObjectURL(url);
  }, [file]);

  useEffect(() => {
    if (!video || source === '') return;
    let gone = false;
    const ready = async () => {
      await learnDuration(video);
      const measured = await measureFrameSpacing(video);
      if (gone) return;
      if (measured === null) setTrouble(t('the_film_has_one_picture'));
      else setSpacing(measured);
      setAt(await showFrameAt(video, 0));
    };
    const failed = () => setTrouble(t('this_browser_cannot_play_the'));
    // A film that is read quickly may be there before anybody listens.
    if (video.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA) void ready();
    else video.addEventListener('loadeddata', ready, { once: true });
    video.addEventListener('error', failed);
    return () => {
      gone = true;
      video.removeEventListener('loadeddata', ready);
      video.removeEventListener('error', failed);
    };
  }, [video, source]);

  const move = (make: () => Promise<number>): Promise<number> => {
    moves.current.latest += 1;
    const own = moves.current.latest;
    const made = moves.current.running.then(async () => {
      if (own !== moves.current.latest) return at_s;
      const time = await make();
      setAt(time);
      return time;
    });
    moves.current.running = made.catch(() => undefined);
    return made;
  };

  return {
    ref: setVideo,
    video,
    source,
    spacing,
    at_s,
    trouble,
    show: (time_s) => (video ? move(() => showFrameAt(video, time_s)) : Promise.resolve(0)),
    showNearest: (time_s) =>
      video && spacing !== null ? move(() => showNearestFrame(video, time_s, spacing)) : Promise.resolve(0),
    step: async (direction) => {
      if (video && spacing !== null) await move(() => showNextFrame(video, spacing, direction));
    },
  };
}
