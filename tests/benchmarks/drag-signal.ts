import type { Page } from 'playwright-core';
import { encodeSamples } from '../../api/store/chunks.ts';
import { readRecording } from '../../api/store/read-samples.ts';
import { listRecordings } from '../../api/store/recordings.ts';
import type { Store } from '../../api/store/store.ts';
import type { AxisColumns, SampleBlock } from '../../shared/sample-block.ts';

/** Puts the recordings of a repetition after one another until each sensor has so many samples. */
export function lengthenRecordings(store: Store, repetition_id: number, samples: number): void {
  for (const { recording_id } of listRecordings(store, repetition_id)) {
    const long = repeated(readRecording(store, recording_id).samples, samples);
    store.transaction(() => {
      store.prepare('DELETE FROM recording_chunks WHERE recording_id = ?').run(recording_id);
      const insert = store.prepare(
        'INSERT INTO recording_chunks (recording_id, channel, sequence, first_sample, samples, bytes) VALUES (?, ?, ?, ?, ?, ?)',
      );
      for (const { channel, sequence, first_sample, samples: n, bytes } of encodeSamples(long))
        insert.run(recording_id, channel, sequence, first_sample, n, bytes);
      store
        .prepare('UPDATE recordings SET samples = ?, duration_s = ? WHERE recording_id = ?')
        .run(samples, long.time_s[samples - 1], recording_id);
    });
  }
}

function repeated(block: SampleBlock, samples: number): SampleBlock {
  const n = block.time_s.length;
  const column = (values: Float64Array) => Float64Array.from({ length: samples }, (_, i) => values[i % n]);
  const axes = ({ x, y, z }: AxisColumns): AxisColumns => ({ x: column(x), y: column(y), z: column(z) });
  return {
    ...block,
    time_s: Float64Array.from({ length: samples }, (_, i) => i / block.sampling_rate_hz),
    acc_mps2: axes(block.acc_mps2),
    gyr_radps: block.gyr_radps && axes(block.gyr_radps),
    gaps: [],
  };
}

/**
 * Drags something to and fro by a finger for some seconds, one movement a frame, and looks when frames come.
 * @returns times between frames, ms, in order of length
 */
export async function framesWhileDragging(page: Page, selector: string, seconds: number): Promise<number[]> {
  // The loader of TypeScript names inner functions by a helper that a page does not have.
  await page.evaluate('globalThis.__name = (named) => named');
  const times = await page.evaluate(
    ([target, during_ms]) =>
      new Promise<number[]>((resolve) => {
        const element = document.querySelector<HTMLElement>(target)!;
        const { left, top, width } = element.getBoundingClientRect();
        const send = (type: string, x: number) =>
          element.dispatchEvent(
            new PointerEvent(type, {
              pointerId: 7,
              pointerType: 'touch',
              clientX: x,
              clientY: top + 100,
              bubbles: true,
            }),
          );
        const frames: number[] = [];
        let before = performance.now();
        const began = before;
        let moves = 0;
        send('pointerdown', left + width / 2);
        const frame = (now: number) => {
          frames.push(now - before);
          before = now;
          if (now - began > during_ms) {
            send('pointerup', left + width / 2);
            resolve(frames.slice(2));
            return;
          }
          send('pointermove', left + width * (0.5 + 0.3 * Math.sin(moves++ / 20)));
          requestAnimationFrame(frame);
        };
        requestAnimationFrame(frame);
      }),
    [selector, 1000 * seconds] as const,
  );
  return times.sort((a, b) => a - b);
}
