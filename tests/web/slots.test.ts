import { expect, test } from 'vitest';
import { Slots } from '../../web/pages/files/slots.ts';

test('Slots lets only so many through at a time, in order, and a turn is given back once', async () => {
  const slots = new Slots(2);
  const began: number[] = [];
  const start = async (n: number) => {
    const release = await slots.acquire();
    began.push(n);
    return release;
  };
  const [first, , third, fourth] = [start(1), start(2), start(3), start(4)];
  await Promise.resolve();
  expect(began).toEqual([1, 2]);
  const releaseFirst = await first;
  releaseFirst();
  releaseFirst();
  const releaseThird = await third;
  expect(began).toEqual([1, 2, 3]);
  releaseThird();
  await fourth;
  expect(began).toEqual([1, 2, 3, 4]);
});
