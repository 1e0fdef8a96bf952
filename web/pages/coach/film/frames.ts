/**
 * Frames of a film by the times the film itself gives them. A browser seeks by seconds and tells afterwards which frame is on
 * screen: `mediaTime` of requestVideoFrameCallback is that frame's own time. Where no new frame comes, the one on screen is asked
 * itself (`VideoFrame`, in browsers that hand it out): a busy device may have shown a new one without a word in time.
 */

/** After a seek that ends on the frame already shown no new frame comes; so long is waited for one. */
const SAME_FRAME_MS = 250;
const SAME_FRAME_PAINTS = 6;
/** A seek further than the slowest frame ends on a new one, however long a busy device takes to show it. */
const NEW_FRAME_MS = 3000;
/** No camera that a coach holds takes pictures further apart than this, s. */
const SLOWEST_FRAME_S = 0.1;

/** What is known of each open film: the time of the frame on screen. */
const shown = new WeakMap<HTMLVideoElement, number>();

/** True where the browser tells the times of frames; without it a frame's time is the time that was sought. */
export function tellsFrames(video: HTMLVideoElement): boolean {
  return 'requestVideoFrameCallback' in video;
}

/** Time of the frame on screen, s. */
export function frameOnScreen(video: HTMLVideoElement): number {
  return shown.get(video) ?? video.currentTime;
}

/**
 * Shows the frame that stands on screen at that time of the film.
 * @returns the frame's own time, s
 */
export async function showFrameAt(video: HTMLVideoElement, time_s: number): Promise<number> {
  const end = Number.isFinite(video.duration) ? video.duration - 1e-4 : Number.POSITIVE_INFINITY;
  const target = Math.max(0, Math.min(end, time_s));
  await settled(video);
  if (!tellsFrames(video)) {
    await seek(video, target);
    shown.set(video, target);
    return target;
  }
  const before = shown.get(video);
  let handle = 0;
  const told = new Promise<number>((resolve) => {
    handle = video.requestVideoFrameCallback((_now, { mediaTime }) => resolve(mediaTime));
  });
  await seek(video, target);
  const moves = before === undefined || Math.abs(target - before) > SLOWEST_FRAME_S;
  const time = (await Promise.race([told, moves ? pause(NEW_FRAME_MS) : noNewFrame()])) ?? frameNow(video);
  video.cancelVideoFrameCallback(handle);
  if (time !== null) shown.set(video, time);
  return frameOnScreen(video);
}

/** Own time of the frame that stands on screen, s, where the browser hands frames out; null where it does not. */
function frameNow(video: HTMLVideoElement): number | null {
  if (!('VideoFrame' in window)) return null;
  try {
    const frame = new VideoFrame(video);
    const time_s = frame.timestamp / 1e6;
    frame.close();
    return time_s;
  } catch {
    return null;
  }
}

/**
 * When no new frame is to be waited for any longer: screens painted without one, of which a busy device takes longer to paint as many;
 * a time, where the frame on screen cannot be asked afterwards.
 */
async function noNewFrame(): Promise<null> {
  if (!('VideoFrame' in window)) return pause(SAME_FRAME_MS);
  for (let k = 0; k < SAME_FRAME_PAINTS; k++) await new Promise((resolve) => requestAnimationFrame(resolve));
  return null;
}

function pause(ms: number): Promise<null> {
  return new Promise((resolve) => setTimeout(() => resolve(null), ms));
}

/** Keeps the time of the frame on screen while the film plays. */
export function followFrames(video: HTMLVideoElement): void {
  if (!tellsFrames(video)) return;
  video.requestVideoFrameCallback((_now, { mediaTime }) => {
    shown.set(video, mediaTime);
    if (!video.paused) followFrames(video);
  });
}

/** A seek that is under way ends first, so that no frame of it is taken for another. */
function settled(video: HTMLVideoElement): Promise<void> {
  return video.seeking ? new Promise((resolve) => once(video, 'seeked', resolve)) : Promise.resolve();
}

function seek(video: HTMLVideoElement, time_s: number): Promise<void> {
  return new Promise((resolve) => {
    once(video, 'seeked', resolve);
    video.currentTime = time_s;
  });
}

function once(video: HTMLVideoElement, event: string, then: () => void): void {
  video.addEventListener(event, () => then(), { once: true });
}

/** Time from one frame to the next: the shortest and the longest that were met. Alike where a film is evenly spaced. */
export interface FrameSpacing {
  shortest_s: number;
  longest_s: number;
}

/** Shows the frame whose own time is nearest to that time. */
export async function showNearestFrame(
  video: HTMLVideoElement,
  time_s: number,
  { shortest_s, longest_s }: FrameSpacing,
): Promise<number> {
  const found = await showFrameAt(video, time_s + shortest_s / 2);
  if (shortest_s === longest_s || time_s - found < shortest_s) return found;
  // Long on screen: the one after may be nearer.
  const next = await frameAfter(video, found, shortest_s);
  return next !== null && next - time_s < time_s - found ? next : showFrameAt(video, found + NEAREST_S / 2);
}

/**
 * The next frame, or the one before, however unevenly a phone spaced them.
 */
export async function showNextFrame(
  video: HTMLVideoElement,
  { shortest_s }: FrameSpacing,
  direction: 1 | -1,
): Promise<number> {
  const start = frameOnScreen(video);
  // The frame before is on screen until this one comes.
  if (direction === -1) return showFrameAt(video, start - Math.min(shortest_s / 2, BEFORE_S));
  // The middle of the neighbour is as far from its edges as can be.
  const found = await showFrameAt(video, start + 1.5 * shortest_s);
  if (Math.abs(found - start - shortest_s) < ROUNDED_S) return found;
  return (await frameAfter(video, start, shortest_s)) ?? showFrameAt(video, start);
}

/** So long before a frame the one before is on screen: nobody films more than 300 frames a second by hand. */
const BEFORE_S = 0.003;
/** Files round times of frames to milliseconds, both ends of an interval. */
const ROUNDED_S = 0.0021;
/** Between frames nearer than this, none is looked for. */
const NEAREST_S = 0.002;
/** A frame that is held longer is the film's last. */
const LONGEST_S = 1;

/**
 * Shows the first frame after one: further and further on until another comes, then back by halving, should one lie between.
 * @returns its time; null after the film's last
 */
async function frameAfter(video: HTMLVideoElement, start: number, ahead_s: number): Promise<number | null> {
  let [low, next] = [start, start];
  for (let ahead = 1.5 * ahead_s; next <= start && ahead < LONGEST_S; ahead *= 2) {
    next = await showFrameAt(video, start + ahead);
    if (next <= start) low = start + ahead;
  }
  if (next <= start) return null;
  while (next - low > NEAREST_S) {
    const middle = (low + next) / 2;
    const time = await showFrameAt(video, middle);
    if (time > start) next = time;
    else low = middle;
  }
  // A time that was rounded down would show the frame before.
  return showFrameAt(video, next + NEAREST_S / 2);
}

/**
 * Time from one frame to the next, measured on the film.
 * @returns null where the film does not move
 */
export async function measureFrameSpacing(video: HTMLVideoElement): Promise<FrameSpacing | null> {
  let at = await showFrameAt(video, Number.isFinite(video.duration) ? video.duration / 2 : 0);
  const start = at;
  const gaps: number[] = [];
  for (let k = 0; k < GAPS; k++) {
    const next = await frameAfter(video, at, gaps.at(-1) ?? FIRST_TRY_S);
    if (next === null) break;
    gaps.push(next - at);
    at = next;
  }
  if (gaps.length === 0) return null;
  const [shortest_s, longest_s] = [Math.min(...gaps), Math.max(...gaps)];
  if (longest_s - shortest_s >= ROUNDED_S) return { shortest_s, longest_s };
  const mean_s = await meanInterval(video, start, (at - start) / gaps.length);
  return { shortest_s: mean_s, longest_s: mean_s };
}

/** Of so many frames the spacing is looked at. */
const GAPS = 5;
/** Half a frame of the usual 30 a second. */
const FIRST_TRY_S = 1 / 60;

/** Times of frames are often rounded to milliseconds: over more and more frames the rounding averages out. */
async function meanInterval(video: HTMLVideoElement, start: number, first: number): Promise<number> {
  let interval = first;
  for (const frames of [16, 64]) {
    const time = await showFrameAt(video, start + (frames + 0.5) * interval);
    const passed = Math.round((time - start) / interval);
    // Near its end a film has fewer.
    if (passed < frames / 2) break;
    interval = (time - start) / passed;
  }
  return interval;
}

/** Length of a film whose file does not say it: a browser learns it by going to the end. */
export async function learnDuration(video: HTMLVideoElement): Promise<void> {
  if (Number.isFinite(video.duration)) return;
  await seek(video, 1e7);
  await seek(video, 0);
}
