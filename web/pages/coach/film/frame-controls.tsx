import { phrasesOf } from '../../../app/language.ts';
import { filmWords } from '../../../../shared/messages/en/view/film.ts';
import { useEffect, useState } from 'preact/hooks';
import { followFrames, frameOnScreen } from './frames.ts';
import type { OpenFilm } from './use-film.ts';

const t = phrasesOf('film', filmWords);

/** A quarter of its speed: slow enough to see a foot land, fast enough to find the run. */
const SLOWLY = 0.25;

/** One frame on or back, slow playing, and a slider over the whole film. */
export function FrameControls({ film }: { film: OpenFilm }) {
  const { video, spacing, at_s } = film;
  const [playing, setPlaying] = useState(false);
  const end = video && Number.isFinite(video.duration) ? video.duration : 0;

  useEffect(() => {
    if (!video) return;
    const stopped = () => {
      setPlaying(false);
      void film.show(frameOnScreen(video) + (film.spacing?.shortest_s ?? 0) / 2);
    };
    video.addEventListener('pause', stopped);
    return () => video.removeEventListener('pause', stopped);
  }, [video, film.spacing]);

  function toggle() {
    if (!video) return;
    if (playing) return video.pause();
    video.playbackRate = SLOWLY;
    setPlaying(true);
    followFrames(video);
    void video.play().catch(() => setPlaying(false));
  }

  return (
    <div class="film-controls no-print">
      <input
        type="range"
        aria-label={t('place_in_the_film_seconds')}
        min={0}
        max={end}
        step={spacing?.shortest_s ?? 0.01}
        value={at_s}
        onInput={(event) => void film.showNearest(Number(event.currentTarget.value))}
      />
      <button type="button" onClick={() => void film.step(-1)}>
        {t('one_frame_back')}
      </button>
      <button type="button" onClick={toggle}>
        {playing ? t('stop_here') : t('play_slowly')}
      </button>
      <button type="button" onClick={() => void film.step(1)}>
        {t('one_frame_on')}
      </button>
    </div>
  );
}
