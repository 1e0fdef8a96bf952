/** Pictures for a paper: the same figure as SVG and PDF, with every number that is drawn. */
import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { JUDGEMENT_EN } from '../../shared/messages/en/judgement.ts';
import { agreementStudy } from '../../api/agreement/study.ts';
import { studyFigure } from '../../api/agreement/study-figure.ts';
import { figurePdf } from '../../api/figures/figure-pdf.ts';
import { figureSvg } from '../../api/figures/figure-svg.ts';
import type { Contact } from '../../shared/analysis.ts';
import { uniform } from '../helpers/random.ts';
import { sprintFiles } from '../helpers/sprint-files.ts';
import { openTestApi, type TestApi } from '../helpers/test-api.ts';

const tags = (svg: string, name: string) => svg.match(new RegExp(`<${name}\\b`, 'g'))?.length ?? 0;

describe('the figure of a study', () => {
  const random = uniform(5);
  const contacts = Array.from({ length: 40 }, (_, k) => {
    const time = 0.1 + 0.03 * random();
    return {
      side: k % 2 ? 'right' : 'left',
      touchdown_s: 1 + 0.24 * k,
      toe_off_s: 1 + 0.24 * k + time,
      contact_time_ms: 1000 * time,
      contact_time_ms_u: 3,
      touchdown_s_u: 0.002,
      toe_off_s_u: 0.002,
    } as Contact;
  });
  const cases = ['<A & B>', 'C'].map((athlete, n) => ({
    recording: `run ${n}`,
    athlete,
    contacts,
    reference: contacts.map((c) => ({
      side: c.side,
      touchdown_s: c.touchdown_s,
      toe_off_s: c.toe_off_s! + 0.004 * (random() - 0.4),
      step_length_m: null,
    })),
  }));
  const study = agreementStudy(cases, 'file', 'test');
  const figure = studyFigure(study, 'contact time', JUDGEMENT_EN)!;

  it('marks every pair, and holds each drawn number as a row', () => {
    const q = study.quantities.find(({ quantity }) => quantity === 'contact time')!;
    expect(figure.marks.length).toBe(q.pairs);
    expect(figure.data.length).toBe(q.pairs);
    const mean = figure.data.reduce((sum, row) => sum + Number(row.difference), 0) / q.pairs;
    expect(mean).toBeCloseTo(q.bias.value, 9);
  });

  it('is an SVG that stands by itself, with its caption, and no text of a file as markup', () => {
    const svg = figureSvg(figure);
    expect(svg.startsWith('<svg xmlns="http://www.w3.org/2000/svg"')).toBe(true);
    // One marker a pair, and those of the legend: two sides and two athletes.
    expect(tags(svg, 'circle') + tags(svg, 'polygon') - 3).toBe(figure.marks.length + 4);
    expect(svg).toContain('limits of agreement');
    expect(svg).toContain('&lt;A &amp; B&gt;');
    expect(svg).not.toContain('<A');
    expect(svg).not.toMatch(/NaN|Infinity/);
  });

  it('is a PDF of one page', async () => {
    const pdf = (await figurePdf(figure)).toString('latin1');
    expect(pdf.startsWith('%PDF-')).toBe(true);
    expect(pdf.match(/\/Type \/Page\b/g)?.length).toBe(1);
  });

  it('is none of a quantity that was not compared', () => {
    expect(studyFigure(study, 'step length', JUDGEMENT_EN)).toBeNull();
  });
});

describe('the figure of a repetition', () => {
  let api: TestApi;
  let repetition_id: number;
  let place: { athlete_id: number; session_id: number };
  beforeAll(async () => {
    api = await openTestApi();
    place = await api.athleteAndSession();
    const { left, right } = sprintFiles();
    const fields = { ...place, mounting: 'foot', effort_percent: 100, course: '30m', time: '5.3s' };
    const { body } = await api.import(fields, { left, right });
    [repetition_id] = body.repetition_ids;
  }, 120_000);
  afterAll(() => api.close());
  const ask = (query: string, id = repetition_id) => api.app.inject({ url: `/api/repetitions/${id}/figure?${query}` });

  it('comes as SVG, PDF and numbers, of the contacts within the course', async () => {
    const svg = await ask('quantity=contact_time_ms&form=svg');
    expect(svg.headers['content-type']).toContain('image/svg+xml');
    const csv = await ask('quantity=contact_time_ms&form=csv');
    const { data } = Papa.parse<Record<string, string>>(csv.body, { header: true, skipEmptyLines: true });
    const measured = data.filter((row) => row.contact_time_ms !== '');
    expect(measured.length).toBeGreaterThan(5);
    // Left round, right square: one marker a measured contact, and two in the legend.
    expect(tags(svg.body, 'circle')).toBe(measured.filter(({ side }) => side === 'left').length + 1);
    const pdf = await ask('quantity=contact_time_ms&form=pdf');
    expect(pdf.headers['content-type']).toBe('application/pdf');
    expect(pdf.rawPayload.subarray(0, 5).toString()).toBe('%PDF-');
  });

  it('is refused with a word where nothing of it was measured, or the quantity is none', async () => {
    const none = await ask('quantity=contact_time_ms&form=gif');
    expect(none.statusCode).toBe(400);
    const { body } = await api.call('POST', '/repetitions', place);
    const empty = await ask('quantity=contact_time_ms&form=svg', body.repetition_id);
    expect(empty.json().code).toBe('FIGURE_EMPTY');
  });

  it('of its course over sessions holds a mark a session and a repetition, and is refused for what was not measured', async () => {
    const at = `/api/coach/athletes/${place.athlete_id}/course/figure`;
    const csv = await api.app.inject({ url: `${at}?quantity=contact_time_ms&form=csv` });
    const { data } = Papa.parse<Record<string, string>>(csv.body, { header: true, skipEmptyLines: true });
    expect(data.map(({ of, date }) => [of, date])).toEqual([
      ['session', '2026-03-02'],
      ['repetition', '2026-03-02'],
    ]);
    const svg = await api.app.inject({ url: `${at}?quantity=contact_time_ms&form=svg` });
    expect(svg.body).toContain('2026-03-02');
    expect(tags(svg.body, 'circle')).toBe(2);
    const none = await api.app.inject({ url: `${at}?quantity=foo&form=svg` });
    expect(none.json().code).toBe('FIGURE_EMPTY');
  });
});
