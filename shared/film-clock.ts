/**
 * Ties a film to a recording: one touchdown marked on its frame gives the offset of the two clocks, more marks give the rate
 * between them as well (a film played slowly, a camera's own clock) and how well they agree.
 */
import type { FilmMark } from './schemas/coach/film.ts';

/** Where a recording's seconds lie in a film: `film_s = offset_s + rate * recording_s`. */
export interface FilmClock {
  offset_s: number;
  /** Film seconds a second of the recording: 1 in real time, 8 where 240 pictures a second are played at 30. */
  rate: number;
  /** Marks it rests on. */
  marks: number;
  /** Standard uncertainty of a film time found with it at the centre of the marks, s. */
  u_s: number;
  /** Standard deviation of the marks about the line, film seconds; null below three marks. */
  residual_s: number | null;
  /** Recording time at the centre of the marks and the marks' spread about it: what the uncertainty elsewhere grows with. */
  centre_s: number;
  spread_s: number;
}

/** Marks further apart than this tell a rate; two frames of neighbouring steps tell none worth having. */
const RATE_FROM_S = 0.5;

/**
 * Least squares through the marks. The frame nearest to an instant lies anywhere within half a frame of it: uniform, so
 * frame / sqrt(12); the instant itself has the recording's error. From three marks on their scatter counts where it is larger.
 * @param frame_s time from one frame to the next
 * @param instant_u_s standard uncertainty of the marked instants in the recording
 * @returns null without a mark
 */
export function filmClock(marks: readonly FilmMark[], frame_s: number, instant_u_s = 0): FilmClock | null {
  const n = marks.length;
  if (n === 0) return null;
  const centre_s = mean(marks.map((mark) => mark.recording_s));
  const film_centre_s = mean(marks.map((mark) => mark.film_s));
  const squares = marks.reduce((sum, mark) => sum + (mark.recording_s - centre_s) ** 2, 0);
  const reach = Math.max(...marks.map((mark) => mark.recording_s)) - Math.min(...marks.map((mark) => mark.recording_s));
  const told = n > 1 && reach >= RATE_FROM_S;
  const slope = marks.reduce((sum, mark) => sum + (mark.recording_s - centre_s) * (mark.film_s - film_centre_s), 0);
  const rate = told ? slope / squares : 1;
  const residuals = marks.map((mark) => mark.film_s - film_centre_s - rate * (mark.recording_s - centre_s));
  const left_over = residuals.reduce((sum, residual) => sum + residual ** 2, 0);
  const residual_s = told && n > 2 ? Math.sqrt(left_over / (n - 2)) : null;
  const one_mark_s = Math.max(Math.hypot(frame_s / Math.sqrt(12), rate * instant_u_s), residual_s ?? 0);
  return {
    offset_s: film_centre_s - rate * centre_s,
    rate,
    marks: n,
    u_s: one_mark_s / Math.sqrt(n),
    residual_s,
    centre_s,
    spread_s: told ? Math.sqrt(squares) : 0,
  };
}

/** The film's time of an instant of the recording. */
export function filmTime(clock: FilmClock, recording_s: number): number {
  return clock.offset_s + clock.rate * recording_s;
}

/** The recording's time of a film's. */
export function recordingTime(clock: FilmClock, film_s: number): number {
  return (film_s - clock.offset_s) / clock.rate;
}

/** Standard uncertainty of a film time, s: grows away from the marks where the rate comes from them. */
export function filmTimeError(clock: FilmClock, recording_s: number): number {
  const away = clock.spread_s > 0 ? (recording_s - clock.centre_s) / clock.spread_s : 0;
  return clock.u_s * Math.sqrt(1 + clock.marks * away ** 2);
}

/** How far each mark lies from the line, film seconds. */
export function markResiduals(clock: FilmClock, marks: readonly FilmMark[]): number[] {
  return marks.map((mark) => mark.film_s - filmTime(clock, mark.recording_s));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
