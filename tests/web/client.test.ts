import { afterEach, describe, expect, it, vi } from 'vitest';
import { ApiFault, client } from '../../web/client.ts';

describe('a request whose answer is a file', () => {
  afterEach(() => vi.unstubAllGlobals());

  it('hands over the file', async () => {
    vi.stubGlobal('fetch', async () => new Response('%PDF-1.4', { status: 200 }));
    expect(await (await client.postForFile('/agreement/report?form=pdf', {})).text()).toBe('%PDF-1.4');
  });

  it('throws a refusal instead of handing it over as the file', async () => {
    const told = { ok: false, code: 'REPETITION_NOT_FOUND', message: 'There is no repetition 7.', where: {}, hint: '' };
    vi.stubGlobal('fetch', async () => new Response(JSON.stringify(told), { status: 404 }));
    const asked = client.postForFile('/agreement/report?form=pdf', {});
    await expect(asked).rejects.toBeInstanceOf(ApiFault);
    await expect(asked).rejects.toMatchObject({ status: 404, code: 'REPETITION_NOT_FOUND' });
  });
});
