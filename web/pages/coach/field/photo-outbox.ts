import { signal } from '@preact/signals';
import type { Fault } from '../../../../shared/fault.ts';
import { faultOf } from '../../../client.ts';
import { coachApi } from '../coach-api.ts';
import { isForGood } from './is-for-good.ts';
import { deletePicture, readPictures, storePicture } from './picture-store.ts';

/** A photograph that the server has not confirmed yet; null takes away the one that it has. */
export interface WaitingPhoto {
  repetition_id: number;
  aspect: string;
  picture: Blob | null;
}

type Place = Pick<WaitingPhoto, 'repetition_id' | 'aspect'>;

/** One for a repetition and aspect, the newest; kept on the device, so that a dead spot or a reload loses nothing. */
export const waitingPhotos = signal<readonly WaitingPhoto[]>([]);

/** Why the server took a photograph not at all, by its place. */
export const refusedPhotos = signal<ReadonlyMap<string, Fault>>(new Map());

export const photoKey = ({ repetition_id, aspect }: Place): string => `${repetition_id}.${aspect}`;

/** What waited when the page was left; nothing is sent before it is known. */
const restored = readPictures<WaitingPhoto>().then((kept) => {
  const newer = new Set(waitingPhotos.peek().map(photoKey));
  waitingPhotos.value = [...kept.filter((photo) => !newer.has(photoKey(photo))), ...waitingPhotos.peek()];
});

/** Takes a photograph at once, or takes one away, and sends that when the network allows. */
export async function keepPhoto(photo: WaitingPhoto): Promise<void> {
  const key = photoKey(photo);
  waitingPhotos.value = [...waitingPhotos.peek().filter((other) => photoKey(other) !== key), photo];
  const refused = new Map(refusedPhotos.peek());
  refused.delete(key);
  refusedPhotos.value = refused;
  await storePicture(key, photo);
  try {
    await flushPhotos();
  } catch {
    // It stays waiting; the next answered question sends it.
  }
}

let sending: Promise<void> = Promise.resolve();

/** Sends what waits, one after the other. What is refused for good is told and dropped; no network throws and keeps all. */
export function flushPhotos(): Promise<void> {
  const next = sending.catch(() => undefined).then(flush);
  sending = next;
  return next;
}

async function flush(): Promise<void> {
  await restored;
  for (const photo of waitingPhotos.peek()) {
    const { repetition_id, aspect, picture } = photo;
    try {
      if (picture) await coachApi.setRatingPhoto(repetition_id, aspect, picture);
      else await coachApi.deleteRatingPhoto(repetition_id, aspect);
    } catch (error) {
      if (!isForGood(error)) throw error;
      refusedPhotos.value = new Map(refusedPhotos.peek()).set(photoKey(photo), faultOf(error));
    }
    // One that was taken meanwhile waits in its place.
    if (!waitingPhotos.peek().includes(photo)) continue;
    waitingPhotos.value = waitingPhotos.peek().filter((other) => other !== photo);
    await deletePicture(photoKey(photo));
  }
}
