import PDFDocument from 'pdfkit';
import type { AgreementPair, AgreementStudy, QuantityAgreement } from '../../shared/schemas/agreement.ts';
import { citation } from '../export/method-statement.ts';
import { drawFigure } from '../figures/draw-figure.ts';
import { pdfSurface } from '../figures/figure-pdf.ts';
import { A4_WIDTH, BOLD, bytesOf, PAPER_COLOURS, type Pdf, REGULAR } from '../pdf/pdf-document.ts';
import { differenceFigure } from './study-figure.ts';
import { correlationText, STUDY_SOURCES, valueText } from './study-words.ts';

const { ink: INK, soft: SOFT } = PAPER_COLOURS;
const MARGIN = 44;
const WIDTH = A4_WIDTH - 2 * MARGIN;

/** The study as A4 pages: found and missed, then for each quantity its figures and the plot of differences over means. */
export function studyPdf(study: AgreementStudy, title: string): Promise<Buffer> {
  const pdf = new PDFDocument({ size: 'A4', margin: MARGIN, info: { Title: title, Creator: 'Cinderlane' } });
  const done = bytesOf(pdf);
  pdf.font(BOLD).fontSize(18).fillColor(INK).text(title);
  pdf.font(REGULAR).fontSize(9.5).fillColor(SOFT);
  pdf.text(`Cinderlane ${study.version}, method ${study.method}. Differences are Cinderlane minus the reference.`);
  pdf.moveDown(0.6);
  recordings(pdf, study);
  for (const q of study.quantities) {
    if (pdf.y > 842 - MARGIN - 360) pdf.addPage();
    quantity(
      pdf,
      q,
      study.pairs.filter((pair) => pair.quantity === q.quantity),
    );
  }
  pdf.font(REGULAR).fontSize(8.5).fillColor(SOFT);
  for (const note of study.notes) pdf.text(note);
  for (const source of STUDY_SOURCES) pdf.text(source);
  pdf.text(citation(study.version));
  pdf.end();
  return done;
}

function recordings(pdf: Pdf, study: AgreementStudy): void {
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
  row(['recording', 'athlete', 'contacts', 'matched', 'missed', 'extra'], true);
  for (const r of study.recordings) row([r.recording, r.athlete, r.reference_contacts, r.matched, r.missed, r.extra]);
  pdf.moveDown(0.8);
}

function quantity(pdf: Pdf, q: QuantityAgreement, pairs: AgreementPair[]): void {
  const v = (value: number): string => valueText(value, q.unit);
  pdf.font(BOLD).fontSize(12).fillColor(INK).text(`${q.quantity}, ${q.unit}`, MARGIN, pdf.y, { width: WIDTH });
  pdf.font(REGULAR).fontSize(9).fillColor(INK);
  const between = q.sd_between === null ? '' : ` (between athletes ${v(q.sd_between)}, within ${v(q.sd_within!)})`;
  pdf.text(`${q.pairs} pairs, ${q.athletes} athletes; ${q.method}.`);
  pdf.text(
    `Bias ${v(q.bias.value)} (95 % interval ${v(q.bias.low)} to ${v(q.bias.high)}), SD ${v(q.sd)}${between}. Limits of agreement ${v(q.lower_limit.value)} (${v(q.lower_limit.low)} to ${v(q.lower_limit.high)}) and ${v(q.upper_limit.value)} (${v(q.upper_limit.low)} to ${v(q.upper_limit.high)}).`,
  );
  const icc = [q.icc, q.icc_consistency].map((one) => (one ? ` ${correlationText(one)}.` : '')).join('');
  pdf.text(
    `Mean absolute error ${v(q.mean_absolute_error)}, root mean square error ${v(q.root_mean_square_error)}, typical error ${v(q.typical_error)}.${icc}`,
  );
  if (q.limits_within && q.limits_between)
    pdf.text(
      `Limits about an athlete's own bias ${v(q.limits_within.lower)} to ${v(q.limits_within.upper)}; athletes' biases lie within ${v(q.limits_between.lower)} to ${v(q.limits_between.upper)}.`,
    );
  if (q.coverage !== null)
    pdf.text(`The stated 95 % intervals hold the reference in ${(100 * q.coverage).toFixed(1)} % of the pairs.`);
  if (q.proportional_slope)
    pdf.text(
      `The difference grows by ${q.proportional_slope.value.toFixed(3)} (${q.proportional_slope.low.toFixed(3)} to ${q.proportional_slope.high.toFixed(3)}) a unit of size.`,
    );
  const end = drawFigure(pdfSurface(pdf), differenceFigure(q, pairs), MARGIN, pdf.y);
  pdf.x = MARGIN;
  pdf.y = end;
}
