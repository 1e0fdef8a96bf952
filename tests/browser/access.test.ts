import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CHROMIUM_MISSING, CHROMIUM_PATH, openBrowser, LAPTOP, openPage, PHONE } from '../helpers/chromium.ts';
import { smallTargets } from '../helpers/small-targets.ts';
import { startViewServer, type ViewServer } from '../helpers/view-server.ts';

/** Marks a request as handed on from elsewhere, which the server takes for a device of the network. */
const FROM_A_PHONE = { 'x-forwarded-for': '192.168.7.31' };

describe.skipIf(!CHROMIUM_PATH)(CHROMIUM_PATH ? 'devices on the network' : CHROMIUM_MISSING, () => {
  let server: ViewServer;
  let browser: Browser;
  let machine: Page;
  let phoneContext: BrowserContext;
  let phone: Page;

  beforeAll(async () => {
    [server, browser] = await Promise.all([startViewServer(), openBrowser()]);
    machine = await openPage(browser);
    phoneContext = await browser.newContext({ viewport: PHONE, extraHTTPHeaders: FROM_A_PHONE, locale: 'en-GB' });
    phone = await phoneContext.newPage();
    phone.setDefaultTimeout(60_000);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const picture = async (page: Page, name: string) => {
    const folder = process.env.CINDERLANE_PICTURES;
    if (folder) await page.screenshot({ path: `${folder}/access-${name}.png`, fullPage: true });
  };

  test('a phone is asked to pair, pairs with the code of the machine, works in its role, and is shut out when revoked', async () => {
    await phone.goto(`${server.address}/#/sessions`);
    await phone.getByRole('heading', { name: 'Pair this device' }).waitFor();
    await picture(phone, 'pair-phone');
    expect(await phone.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);

    await machine.goto(`${server.address}/#/devices`);
    await machine.getByLabel('It may use').selectOption('coach');
    await machine.getByRole('button', { name: 'Show a pairing code' }).click();
    const digits = (await machine.locator('.access-digits').textContent()) ?? '';
    await picture(machine, 'devices-machine');

    await phone.getByLabel('Code, six digits').fill('000 000'.replace(/0/g, digits.startsWith('0') ? '1' : '0'));
    await phone.getByLabel(/Name of this device/).fill('phone at the finish');
    await phone.getByRole('button', { name: 'Pair' }).click();
    await phone.getByText(/That is not the code/).waitFor();
    await phone.getByLabel('Code, six digits').fill(digits);
    await phone.getByRole('button', { name: 'Pair' }).click();
    await phone.getByRole('heading', { name: 'Paired' }).waitFor();
    await phone.getByRole('link', { name: 'Go on' }).click();
    await phone.getByRole('link', { name: /Speed, 40 yd/ }).waitFor();

    // What gives names away asks for a fresh code.
    await phone.goto(`${server.address}/#/devices`);
    await machine.getByRole('button', { name: 'Show a confirmation code' }).click();
    await machine.getByText('Type this on the device:').waitFor();
    const fresh = (await machine.locator('.access-digits').textContent()) ?? '';
    await phone.getByLabel('Confirmation code').fill(fresh);
    await phone.getByRole('button', { name: 'Confirm' }).click();
    await phone.getByText(/Confirmed until/).waitFor();
    await picture(phone, 'devices-phone');

    await machine.reload();
    await machine.getByText('phone at the finish').first().waitFor();
    await machine.getByRole('button', { name: 'Revoke' }).click();
    await machine.getByText(/, revoked /).waitFor();
    await phone.goto(`${server.address}/#/sessions`);
    await phone.getByRole('heading', { name: 'Pair this device' }).waitFor();
  });

  test('a phone paired for the display sees no page but the field, and is told so', async () => {
    await machine.goto(`${server.address}/#/devices`);
    await machine.getByLabel('It may use').selectOption('display');
    await machine.getByRole('button', { name: 'Show a pairing code' }).click();
    const digits = (await machine.locator('.access-digits').textContent()) ?? '';
    await phone.goto(`${server.address}/#/pair?code=${digits.replace(' ', '')}`);
    await phone.getByRole('button', { name: 'Pair' }).click();
    await phone.getByRole('heading', { name: 'Paired' }).waitFor();
    await phone.goto(`${server.address}/#/athletes`);
    await phone
      .getByText(/paired as "display"; this needs coach/)
      .first()
      .waitFor();
    await picture(phone, 'refused-phone');
  });

  test.each([
    { role: 'field', may: '/live', sees: { name: 'Live' }, may_not: '/athletes' },
    { role: 'scientist', may: '/research', sees: { name: 'Research' }, may_not: '/live' },
  ])('a phone paired for $role opens what is its and is refused what is not', async ({ role, may, sees, may_not }) => {
    await machine.goto(`${server.address}/#/devices`);
    await machine.getByLabel('It may use').selectOption(role);
    await machine.getByRole('button', { name: 'Show a pairing code' }).click();
    const context = await browser.newContext({ viewport: PHONE, extraHTTPHeaders: FROM_A_PHONE, locale: 'en-GB' });
    const other = await context.newPage();
    other.setDefaultTimeout(60_000);
    const digits = (await machine.locator('.access-digits').textContent()) ?? '';
    await other.goto(`${server.address}/#/pair?code=${digits.replace(' ', '')}`);
    await other.getByRole('button', { name: 'Pair' }).click();
    await other.getByRole('heading', { name: 'Paired' }).waitFor();
    await other.goto(`${server.address}/#${may}`);
    await other.getByRole('heading', sees).first().waitFor();
    const refusal = other.getByText(new RegExp(`paired as "${role}"; this needs`));
    await other.goto(`${server.address}/#${may_not}`);
    await refusal.first().waitFor();
    expect(await other.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
    await picture(other, `${role}-phone`);
    await context.close();
  });

  test('legal basis and guardian of a minor are recorded at phone size', async () => {
    await machine.setViewportSize(PHONE);
    await machine.goto(`${server.address}/#/research`);
    const form = machine.locator('details', { hasText: 'Legal basis and guardian' }).filter({ hasText: 'Wren Abara' });
    await form.locator('summary').click();
    await form.getByLabel('Legal basis').selectOption('consent');
    await form.getByLabel('Guardian who decided').fill('Ada Abara');
    await form.getByRole('button', { name: 'Save guardian' }).click();
    await machine.getByText(/decided by Ada Abara/).waitFor();
    expect(await machine.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
    expect(await smallTargets(machine)).toEqual([]);
    await picture(machine, 'guardian-phone');
    await machine.setViewportSize(LAPTOP);
    const { items } = await (await fetch(`${server.address}/api/research-consents`)).json();
    expect(items[0]).toMatchObject({ legal_basis: 'consent', guardian: 'Ada Abara' });
  });

  test('trusting the machine is explained in four pictures that fit a phone', async () => {
    await phone.goto(`${server.address}/#/trust`);
    await phone.getByRole('heading', { name: 'Let this phone trust the machine' }).waitFor();
    expect(await phone.locator('.trust-picture').count()).toBe(4);
    expect(await phone.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
    await picture(phone, 'trust-phone');
  });
});
