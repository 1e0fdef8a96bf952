import PDFDocument from 'pdfkit';
import type { AgreementPair, AgreementStudy, QuantityAgreement } from '../../shared/schemas/agreement.ts';
import { niceTicks } from '../../shared/nice-ticks.ts';
import { citation } from '../export/method-statement.ts';
import { A4_WIDTH, BOLD, bytesOf, PAPER_COLOURS, type Pdf, REGULAR } from '../pdf/pdf-document.ts';
import { valueText } from './study-words.ts';

const { ink: INK, soft: SOFT, left: LEFT, right: RIGHT } = PAPER_COLOURS;
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
    if (pdf.y > 842 - MARGIN - 310) pdf.addPage();
    quantity(
      pdf,
      q,
      study.pairs.filter((pair) => pair.quantity === q.quantity),
    );
  }
  pdf.font(REGULAR).fontSize(8.5).fillColor(SOFT);
  for (const note of study.notes) pdf.text(note);
  pdf.text(
    'Limits of agreement: Bland and Altman 1986 (doi 10.1016/S0140-6736(86)90837-8) and 2007 (doi 10.1080/10543400701329422); ICC: Shrout and Fleiss 1979 (doi 10.1037/0033-2909.86.2.420).',
  );
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
  const icc = q.icc
    ? ` ${q.icc.form} ${q.icc.value.toFixed(3)} (${q.icc.low.toFixed(3)} to ${q.icc.high.toFixed(3)}).`
    : '';
  pdf.text(
    `Mean absolute error ${v(q.mean_absolute_error)}, root mean square error ${v(q.root_mean_square_error)}, typical error ${v(q.typical_error)}.${icc}`,
  );
  // Instants grow with time along the recording: their means are measured from each recording's first pair.
  plotOfDifferences(pdf, q, pairs, q.quantity === 'touchdown' || q.quantity === 'toe-off');
}

function plotOfDifferences(pdf: Pdf, q: QuantityAgreement, pairs: AgreementPair[], instants: boolean): void {
  const height = 190;
  const [x0, y0] = [MARGIN + 44, pdf.y + 18];
  const w = WIDTH - 54;
  const means = pairs.map((p) => (p.ours + p.reference) / (instants ? 2000 : 2));
  const differences = pairs.map((p) => p.ours - p.reference);
  const reach =
    1.05 * Math.max(1e-9, ...differences.map(Math.abs), Math.abs(q.lower_limit.low), Math.abs(q.upper_limit.high));
  const [low, high] = [Math.min(...means), Math.max(...means)];
  const sx = (value: number): number => x0 + ((value - low) / Math.max(high - low, 1e-9)) * (w - 12) + 6;
  const sy = (value: number): number => y0 + height / 2 - (value / reach) * (height / 2);
  pdf.rect(x0, y0, w, height).lineWidth(0.7).strokeColor(SOFT).stroke();
  for (const tick of niceTicks(-reach, reach, 5)) label(pdf, valueTick(tick), x0 - 42, sy(tick) - 4, 38, 'right');
  for (const tick of niceTicks(low, high, 6)) label(pdf, valueTick(tick), sx(tick) - 20, y0 + height + 3, 40, 'center');
  label(pdf, instants ? 'instant in the recording, s' : `mean of both, ${q.unit}`, x0, y0 + height + 14, w, 'center');
  pairs.forEach((p, k) => {
    const [x, y] = [sx(means[k]), sy(differences[k])];
    pdf.lineWidth(0.6).strokeColor(p.side === 'right' ? RIGHT : LEFT);
    if (p.side === 'right') pdf.rect(x - 1.6, y - 1.6, 3.2, 3.2).stroke();
    else pdf.circle(x, y, 1.7).stroke();
  });
  const line = (value: number, dashed: boolean): void => {
    pdf
      .moveTo(x0, sy(value))
      .lineTo(x0 + w, sy(value))
      .lineWidth(1)
      .strokeColor(INK);
    if (dashed) pdf.dash(4, { space: 3 });
    pdf.stroke().undash();
  };
  line(q.bias.value, false);
  line(q.lower_limit.value, true);
  line(q.upper_limit.value, true);
  label(
    pdf,
    `difference, ${q.unit}: line = bias, dashes = limits of agreement; round = left, square = right`,
    x0,
    y0 - 12,
    w,
    'left',
  );
  pdf.x = MARGIN;
  pdf.y = y0 + height + 34;
}

function label(pdf: Pdf, text: string, x: number, y: number, width: number, align: 'left' | 'right' | 'center'): void {
  pdf.font(REGULAR).fontSize(7.5).fillColor(SOFT).text(text, x, y, { width, align, lineBreak: false });
}

function valueTick(value: number): string {
  return String(Number(value.toPrecision(6)));
}
