/**
 * Frames of a film by the times the film itself gives them. A browser seeks by seconds and tells afterwards which frame is on
 * screen: `mediaTime` of requestVideoFrameCallback is that frame's own time.
 */

/** After a seek that ends on the frame already shown no new frame comes; so long is waited for one. */
const SAME_FRAME_MS = 250;
/** A seek further than the slowest frame ends on a new one, however long a busy device takes to show it. */
const NEW_FRAME_MS = 3000;
/** No camera that a coach holds takes pictures further apart than this, s. */
const SLOWEST_FRAME_S = 0.1;
const HALVINGS = 12;

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
  const moves = before === undefined || Math.abs(target - before) > SLOWEST_FRAME_S;
  let handle = 0;
  const frame = new Promise<number>((resolve) => {
    handle = video.requestVideoFrameCallback((_now, { mediaTime }) => resolve(mediaTime));
  });
  await seek(video, target);
  const patience_ms = moves ? NEW_FRAME_MS : SAME_FRAME_MS;
  const same = new Promise<null>((resolve) => setTimeout(() => resolve(null), patience_ms));
  const time = await Promise.race([frame, same]);
  if (time === null) video.cancelVideoFrameCallback(handle);
  else shown.set(video, time);
  return frameOnScreen(video);
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

/** Shows the frame whose own time is nearest to that time. @param frame_s time from one frame to the next */
export function showNearestFrame(video: HTMLVideoElement, time_s: number, frame_s: number): Promise<number> {
  return showFrameAt(video, time_s + frame_s / 2);
}

/** The next frame, or the one before. @param frame_s time from one frame to the next */
export function showNextFrame(video: HTMLVideoElement, frame_s: number, direction: 1 | -1): Promise<number> {
  // The middle of a neighbour is as far from its edges as can be: times of frames are rounded.
  return showFrameAt(video, frameOnScreen(video) + (direction === 1 ? 1.5 : -0.5) * frame_s);
}

/**
 * Time from one frame to the next, measured on the film: the change to the next frame is closed in on by halving.
 * @returns null where the film does not move
 */
export async function measureFrameInterval(video: HTMLVideoElement): Promise<number | null> {
  const start = await showFrameAt(video, Number.isFinite(video.duration) ? video.duration / 2 : 0);
  let [same, other] = [start, start + SLOWEST_FRAME_S];
  let next = await showFrameAt(video, other);
  if (next <= start) return null;
  for (let k = 0; k < HALVINGS && next - same > 1e-3; k++) {
    const middle = (same + Math.min(other, next)) / 2;
    const found = await showFrameAt(video, middle);
    if (found > start) [other, next] = [middle, found];
    else same = middle;
  }
  return meanInterval(video, start, next - start);
}

/** Times of frames are often rounded to milliseconds: over more and more frames the rounding averages out. */
async function meanInterval(video: HTMLVideoElement, start: number, first: number): Promise<number> {
  let interval = first;
  for (const frames of [4, 16, 64]) {
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
