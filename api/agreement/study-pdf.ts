import PDFDocument from 'pdfkit';
import type { JudgementWords } from '../../shared/messages/judgement-words.ts';
import type { AgreementPair, AgreementStudy, QuantityAgreement } from '../../shared/schemas/agreement.ts';
import { citation } from '../export/method-statement.ts';
import { drawFigure } from '../figures/draw-figure.ts';
import { pdfSurface } from '../figures/figure-pdf.ts';
import { A4_WIDTH, BOLD, bytesOf, PAPER_COLOURS, type Pdf, REGULAR } from '../pdf/pdf-document.ts';
import { differenceFigure } from './study-figure.ts';
import { quantitySentences, studyNotes } from './study-words.ts';

const { ink: INK, soft: SOFT } = PAPER_COLOURS;
const MARGIN = 44;
const WIDTH = A4_WIDTH - 2 * MARGIN;

/** The study as A4 pages: found and missed, then for each quantity its figures and the plot of differences over means. */
export function studyPdf(study: AgreementStudy, title: string, words: JudgementWords): Promise<Buffer> {
  const pdf = new PDFDocument({ size: 'A4', margin: MARGIN, info: { Title: title, Creator: 'Cinderlane' } });
  const done = bytesOf(pdf);
  pdf.font(BOLD).fontSize(18).fillColor(INK).text(title);
  pdf.font(REGULAR).fontSize(9.5).fillColor(SOFT);
  pdf.text(words.coach.agreement('made_by', { version: study.version, method: study.method }));
  pdf.moveDown(0.6);
  recordings(pdf, study, words);
  for (const q of study.quantities) {
    if (pdf.y > 842 - MARGIN - 360) pdf.addPage();
    quantity(
      pdf,
      q,
      study.pairs.filter((pair) => pair.quantity === q.quantity),
      words,
    );
  }
  pdf.font(REGULAR).fontSize(8.5).fillColor(SOFT);
  for (const note of studyNotes(study, words)) pdf.text(note);
  pdf.text(citation(study.version));
  pdf.end();
  return done;
}

function recordings(pdf: Pdf, study: AgreementStudy, words: JudgementWords): void {
  const t = words.coach.agreement;
  const x = [MARGIN, MARGIN + 200, MARGIN + 290, MARGIN + 345, MARGIN + 400, MARGIN + 450];
  const row = (cells: (string | number)[], bold = false): void => {
    if (pdf.y > 842 - MARGIN - 14) pdf.addPage();
    const y = pdf.y;
    pdf
      .font(bold ? BOLD : REGULAR)
      .fontSize(8.5)
      .fillColor(INK);
    cells.forEach((cell, k) => {
      pdf.text(String(cell), x[k], y, { width: (x[k + 1] ?? MARGIN + WIDTH) - x[k] - 4, lineBreak: false });
    });
    pdf.x = MARGIN;
    pdf.y = y + 12;
  };
  row([t('recording'), t('athlete'), t('contacts'), t('matched'), t('missed'), t('extra')], true);
  for (const r of study.recordings) row([r.recording, r.athlete, r.reference_contacts, r.matched, r.missed, r.extra]);
  pdf.moveDown(0.8);
}

function quantity(pdf: Pdf, q: QuantityAgreement, pairs: AgreementPair[], words: JudgementWords): void {
  const heading = `${words.label(q.quantity)}, ${q.unit}`;
  pdf.font(BOLD).fontSize(12).fillColor(INK).text(heading, MARGIN, pdf.y, { width: WIDTH });
  pdf.font(REGULAR).fontSize(9).fillColor(INK);
  pdf.text(quantitySentences(q, words).join(' '));
  const end = drawFigure(pdfSurface(pdf), differenceFigure(q, pairs, words), MARGIN, pdf.y);
  pdf.x = MARGIN;
  pdf.y = end;
}
