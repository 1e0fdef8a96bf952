import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import { JUDGEMENT_DE } from '../../../shared/messages/de/judgement.ts';
import { refusalOf, wordsOf } from '../../helpers/told.ts';
import { describe, expect, it } from 'vitest';
import { findClockOffset, matchContacts } from '../../../api/agreement/match-contacts.ts';
import { readReference } from '../../../api/agreement/read-reference.ts';
import { agreementStudy } from '../../../api/agreement/study.ts';
import { pairsCsv } from '../../../api/agreement/study-csv.ts';
import { studyPdf } from '../../../api/agreement/study-pdf.ts';
import { studyTable } from '../../../api/agreement/study-words.ts';
import type { Contact } from '../../../shared/analysis.ts';
import { uniform } from '../../helpers/random.ts';

/** Contacts of alternate feet with step times that vary as a runner's do. */
function contacts(seed: number, count = 40): Contact[] {
  const random = uniform(seed);
  let t = 1;
  return Array.from({ length: count }, (_, k) => {
    t += 0.24 - 0.0008 * k + 0.01 * (random() - 0.5);
    const time = 0.11 + 0.01 * random();
    return {
      side: k % 2 === 0 ? 'left' : 'right',
      touchdown_s: t,
      toe_off_s: t + time,
      contact_time_ms: time * 1000,
      contact_time_ms_u: 3,
      touchdown_s_u: 0.002,
      toe_off_s_u: 0.002,
      step_length_m: 2,
      step_length_m_u: 0.02,
    } as Contact;
  });
}

const referenceOf = (ours: Contact[], shift: number, bias_ms = 0) =>
  ours.map((c) => ({
    side: c.side,
    touchdown_s: c.touchdown_s + shift,
    toe_off_s: c.toe_off_s! + shift - bias_ms / 1000,
    step_length_m: c.step_length_m,
  }));

describe('matching with a reference', () => {
  it('pairs each contact once, and counts missed and extra ones within the span of the reference', () => {
    const ours = contacts(1, 10);
    const reference = referenceOf(ours, 0).filter((_, k) => k !== 4);
    const matched = matchContacts(
      ours.filter((_, k) => k !== 7),
      reference,
      0,
    );
    expect(matched.pairs.length).toBe(8);
    expect(matched.missed.length).toBe(1);
    expect(matched.extra.length).toBe(1);
  });

  it('finds the offset of an unrelated clock from the steps', () => {
    const ours = contacts(2);
    expect(findClockOffset(ours, referenceOf(ours, -123.4567), 'one')).toBeCloseTo(123.4567, 6);
  });

  it('refuses a reference that has nothing to do with the recording, with what was found', () => {
    const reference = contacts(3).map((c, k) => ({
      side: c.side,
      touchdown_s: 2 ** k,
      toe_off_s: null,
      step_length_m: null,
    }));
    expect(refusalOf(() => findClockOffset(contacts(4), reference, 'another'))).toMatch(/at best \d+ of 40/);
  });

  it('refuses a table without touchdowns and names line and column of a broken cell', () => {
    expect(refusalOf(() => readReference('side,start\nleft,1', 'plate.csv'))).toMatch(/plate.csv, line 1.*touchdown_s/);
    expect(refusalOf(() => readReference('side,touchdown_s\nleft,1\nright,x', 'plate.csv'))).toMatch(
      /line 3: touchdown_s is "x"/,
    );
  });
});

describe('an agreement study', () => {
  const cases = [1, 2, 3].map((seed) => {
    const ours = contacts(seed);
    // The reference reads contact times 4, 5 and 6 ms shorter: each athlete has a bias of their own.
    return { recording: `r${seed}`, athlete: `a${seed}`, contacts: ours, reference: referenceOf(ours, 0, 3 + seed) };
  });

  it('reports the bias that was put in, with the spread between athletes kept apart', () => {
    const study = agreementStudy(cases, 'file', 'contacts-1');
    const time = study.quantities.find((q) => q.quantity === 'contact time')!;
    expect(time.bias.value).toBeCloseTo(5, 9);
    expect(time.sd_between).toBeCloseTo(1, 9);
    expect(time.sd_within).toBeCloseTo(0, 9);
    expect(wordsOf(time.method)).toContain('repeated measures');
    expect(time.lower_limit.value).toBeCloseTo(5 - 1.96, 9);
    expect(study.recordings.every((row) => row.missed === 0 && row.extra === 0)).toBe(true);
  });

  it('does not claim a bias of touchdown when the touchdowns themselves put the clocks together', () => {
    const study = agreementStudy(cases, 'unrelated', 'contacts-1');
    expect(study.quantities.map((q) => q.quantity)).toEqual(['contact time', 'step length']);
    expect(study.notes.map((note) => wordsOf(note)).join(' ')).toContain('no bias of touchdown');
  });

  it('tells agreement from consistency: a bias that all share lowers ICC(A,1) and leaves ICC(C,1) as it is', () => {
    const shifted = (bias: number) =>
      agreementStudy(
        cases.map((one) => ({ ...one, reference: referenceOf(one.contacts, 0, bias) })),
        'file',
        'contacts-1',
      ).quantities.find((q) => q.quantity === 'contact time')!;
    const [near, far] = [shifted(1), shifted(6)];
    expect(near.icc!.form).toBe('ICC(A,1)');
    expect(near.icc_consistency!.form).toBe('ICC(C,1)');
    expect(far.icc!.value).toBeLessThan(near.icc!.value - 0.1);
    expect(far.icc_consistency!.value).toBeCloseTo(near.icc_consistency!.value, 9);
    expect(far.icc_consistency!.value).toBeCloseTo(1, 9);
  });

  it('gives limits about the athlete and between athletes, each 1.96 of its own standard deviation', () => {
    const time = agreementStudy(cases, 'file', 'contacts-1').quantities.find((q) => q.quantity === 'contact time')!;
    expect(time.limits_between).toEqual({
      lower: expect.closeTo(5 - 1.96, 9),
      upper: expect.closeTo(5 + 1.96, 9),
    });
    expect(time.limits_within!.upper).toBeCloseTo(0, 9);
  });

  it('hands out every pair in full: what is read from pairs.csv is the same number', () => {
    const study = agreementStudy(cases, 'file', 'contacts-1');
    const [header, ...rows] = pairsCsv(study).trim().split('\n');
    const column = header.split(',').indexOf('ours');
    expect(rows.map((row) => Number(row.split(',')[column]))).toEqual(study.pairs.map(({ ours }) => ours));
    expect(new Set(rows.map((row) => row.split(',')[column].replace('.', '').length)).size).toBeGreaterThan(1);
  });

  it('cites where each interval comes from, and says how often the stated ones hold', () => {
    const text = studyTable(agreementStudy(cases, 'file', 'contacts-1'), JUDGEMENT_EN);
    for (const source of ['10.1016/S0140-6736(86)90837-8', 'Zou 2013', '10.1037/1082-989X.1.1.30', 'Hopkins 2000'])
      expect(text).toContain(source);
    expect(text).toMatch(/hold the reference in [\d.]+ % of pairs/);
  });

  it('says the same in German, with the numbers as German writes them', () => {
    const study = agreementStudy(cases, 'file', 'contacts-1');
    const [english, german] = [studyTable(study, JUDGEMENT_EN), studyTable(study, JUDGEMENT_DE)];
    expect(german).toMatch(/Bodenkontaktzeit, ms:\n {2}\d+ Paare von 3 Athleten; Messwiederholungen/);
    expect(english).toContain('Bias 5.0 (');
    expect(german).toContain('Systematische Abweichung 5,0 (');
    const figures = (text: string) => text.replaceAll(',', '.').match(/\d+\.\d+/g);
    expect(figures(german)).toEqual(figures(english));
    expect(german).not.toMatch(/\b(the|of|and)\b/i);
  });

  it('is printed as a PDF', async () => {
    const pdf = await studyPdf(agreementStudy(cases, 'file', 'contacts-1'), 'Test', JUDGEMENT_EN);
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
  });
});
