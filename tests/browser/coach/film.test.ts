/** A film beside contacts, in a real browser: every picture of the film carries its own number, which the test reads off the screen. */
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CHROMIUM_MISSING, CHROMIUM_PATH, openBrowser, openPage, complaintsOf } from '../../helpers/chromium.ts';
import { startViewServer, type ViewServer } from '../../helpers/view-server.ts';
import { LAPTOP, lookAt } from './look-at.ts';

/**
 * 6.5 s of 60 pictures a second, 160 x 48: of ten columns each is white where that bit of the picture's number is set. Made by
 * ffmpeg 5.1: color=gray:160x48:60, geq=lum='if(bitand(N,pow(2,floor(X/16))),235,16)', libvpx.
 */
const dataFile = (name: string) => fileURLToPath(new URL(`./data/${name}`, import.meta.url));
const FILM = dataFile('coded-60.webm');
/** The same pictures as phones keep them: H.264 in MP4, made by libx264 of the film above. */
const MP4 = dataFile('coded-60.mp4');
/** Without every second and third picture of five, each other at its own time: select='not(between(mod(n,5),1,2))', -fps_mode vfr. */
const UNEVEN = ['coded-uneven.webm', 'coded-uneven.mp4'];
/** An uneven film is searched for the next picture, on a busy machine slowly. */
const PATIENCE = { timeout: 120_000 };
const UNEVEN_PICTURES = [0, 3, 4, 5, 8, 9, 10, 13, 14, 15];

describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? 'a film beside contacts' : CHROMIUM_MISSING, () => {
  let server: ViewServer;
  let browser: Browser;
  let page: Page;
  let complaints: string[] = [];

  beforeAll(async () => {
    [server, browser] = await Promise.all([startViewServer(), openBrowser()]);
    page = await openPage(browser);
    await page.setViewportSize(LAPTOP);
    complaints = complaintsOf(page);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const open = async (path: string, ready: string) => {
    await page.goto(`${server.address}/#${path}`);
    await page.locator(ready).first().waitFor();
  };
  const text = async (selector: string) =>
    (await page.locator(selector).first().textContent())!.replaceAll(/\s+/g, ' ').trim();
  const lookedAt = (name: string) => lookAt(page, name, complaints);

  /** The number of the picture on screen, read off its columns. */
  const pictureNumber = () =>
    page.locator('video.film').evaluate((video: HTMLVideoElement) => {
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [160, 48];
      const context = canvas.getContext('2d')!;
      context.drawImage(video, 0, 0, 160, 48);
      let number = 0;
      for (let bit = 0; bit < 10; bit++) {
        if (context.getImageData(bit * 16 + 8, 24, 1, 1).data[0] > 127) number += 2 ** bit;
      }
      return number;
    });
  /** The film's time that the page tells for the frame on screen, s. */
  const told_s = async () => Number(/Frame at ([\d.]+) s/.exec(await text('.film-where'))![1]);

  test('a film of the device: frame by frame by its own times, nothing of it sent', async () => {
    const sent: string[] = [];
    page.on('request', (request) => request.method() !== 'GET' && sent.push(request.postData() ?? ''));
    await open(`/repetitions/${server.repetition_ids[0]}/film`, 'input[type=file]');
    await page.locator('input[type=file]').setInputFiles(FILM);
    await page.locator('.film-where').waitFor();
    expect(await text('.film-where')).toContain('one every 16.7 ms');
    // 60 pictures a second: picture n stands from n / 60 s on; files of this kind round times to milliseconds.
    for (let n = 1; n <= 5; n++) {
      await page.getByRole('button', { name: 'One frame on' }).click();
      await expect.poll(pictureNumber).toBe(n);
      expect(await told_s()).toBeCloseTo(n / 60, 2);
    }
    await page.getByRole('button', { name: 'One frame back' }).click();
    await expect.poll(pictureNumber).toBe(4);
    await page.getByRole('button', { name: 'Play slowly' }).click();
    await expect.poll(pictureNumber).toBeGreaterThan(12);
    await page.getByRole('button', { name: 'Stop here' }).click();
    await page.getByRole('button', { name: 'Play slowly' }).waitFor();
    await expect.poll(async () => Math.round(60 * (await told_s())) - (await pictureNumber())).toBe(0);
    // Back to the picture that is the touchdown in what follows.
    await page.getByRole('slider', { name: 'Place in the film, seconds' }).evaluate((slider: HTMLInputElement) => {
      slider.value = String(4 / 60);
      slider.dispatchEvent(new Event('input', { bubbles: true }));
    });
    await expect.poll(pictureNumber).toBe(4);
    expect(sent).toEqual([]);
  });

  test('one touchdown marked ties it: from then on every contact shows its own picture', async () => {
    const answer = await fetch(`${server.address}/api/repetitions/${server.repetition_ids[0]}/profile`);
    const { contacts } = (await answer.json()) as { contacts: { touchdown_s: number; toe_off_s: number }[] };
    await page.getByRole('button', { name: 'This frame is the touchdown of step 1' }).click();
    await page.getByText('Tied by 1 mark').waitFor();
    // Picture 4 is the touchdown of step 1; the run is filmed in real time, so picture n lies (n - 4) / 60 s after it.
    const pictureOf = (instant_s: number) => 4 + 60 * (instant_s - contacts[0].touchdown_s);
    for (let step = 2; step <= 4; step++) {
      await page.getByRole('button', { name: 'Next contact' }).click();
      const wanted = pictureOf(contacts[step - 1].touchdown_s);
      await expect.poll(async () => Math.abs((await pictureNumber()) - wanted)).toBeLessThanOrEqual(0.6);
    }
    await page.getByRole('radio', { name: 'toe-off' }).check();
    const off = pictureOf(contacts[3].toe_off_s);
    await expect.poll(async () => Math.abs((await pictureNumber()) - off)).toBeLessThanOrEqual(0.6);
    await page.getByRole('button', { name: 'Contact before' }).focus();
    await page.keyboard.press('n');
    expect(await text('.film-contact p')).toMatch(/^Step 5 of /);
    await page.getByRole('radio', { name: 'touchdown' }).check();
    await page.getByRole('button', { name: /^Sheet: touchdown of all \d+ contacts/ }).click();
    await page.locator('.film-pictures li').nth(5).waitFor();
    expect(await page.locator('.film-pictures img').first().getAttribute('alt')).toMatch(/^touchdown of step 1, /);
    await lookedAt('film');
  });

  test('the tie is kept, the film is not; the best repetition stands beside it at the same step', async () => {
    await page.reload();
    await page.getByText('Tied before: coded-60.webm.').waitFor();
    expect(await page.locator('video').count()).toBe(0);
    await page.locator('input[type=file]').setInputFiles(FILM);
    await page.getByText('Tied by 1 mark').waitFor();
    await expect.poll(pictureNumber).toBe(4);
    await page.getByLabel('Beside').selectOption({ index: 1 });
    await page.locator('.film-panel').nth(1).waitFor();
    await page.locator('.film-panel').nth(1).locator('input[type=file]').setInputFiles(FILM);
    const second = page.locator('.film-panel').nth(1);
    await second.getByRole('button', { name: 'This frame is the touchdown of step 1' }).click();
    await second.getByText('Tied by 1 mark').waitFor();
    await page.getByRole('button', { name: 'Next contact' }).click();
    await second
      .getByText(/the touchdown of step 2/)
      .first()
      .waitFor();
    await lookedAt('film-beside');
  });

  test.each([
    { name: 'coded-60.mp4', path: MP4, pictures: [0, 1, 2, 3, 4, 5], spacing: /one every 16\.7 ms/ },
    ...UNEVEN.map((name) => ({
      name,
      path: dataFile(name),
      pictures: UNEVEN_PICTURES,
      spacing: /1[67](\.\d)? to 50(\.\d)? ms apart/,
    })),
  ])(
    '$name steps from picture to picture and back, each at its own time, none left out',
    async ({ path, pictures, spacing }) => {
      await open(`/repetitions/${server.repetition_ids[1]}/film`, 'input[type=file]');
      // The page may be open with the film before.
      await page.reload();
      await page.locator('input[type=file]').setInputFiles(path);
      await page.locator('.film-where').waitFor();
      expect(await text('.film-where')).toMatch(spacing);
      await expect.poll(pictureNumber, PATIENCE).toBe(0);
      for (const picture of pictures.slice(1)) {
        await page.getByRole('button', { name: 'One frame on' }).click();
        await expect.poll(pictureNumber, PATIENCE).toBe(picture);
        await expect.poll(told_s, PATIENCE).toBeCloseTo(picture / 60, 2);
      }
      for (const picture of pictures.slice(0, -1).reverse()) {
        await page.getByRole('button', { name: 'One frame back' }).click();
        await expect.poll(pictureNumber, PATIENCE).toBe(picture);
        await expect.poll(told_s, PATIENCE).toBeCloseTo(picture / 60, 2);
      }
    },
  );
});
