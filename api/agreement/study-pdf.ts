import PDFDocument from 'pdfkit';
import type { AgreementPair, AgreementStudy, QuantityAgreement } from '../../shared/schemas/agreement.ts';
import { niceTicks } from '../../shared/nice-ticks.ts';
import { citation } from '../export/method-statement.ts';
import { A4_WIDTH, BOLD, bytesOf, PAPER_COLOURS, type Pdf, REGULAR } from '../pdf/pdf-document.ts';
import { drawMarker } from './markers.ts';
import { correlationText, STUDY_SOURCES, valueText } from './study-words.ts';

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
  // Intervals of bias and limits lie under the points, as bands.
  for (const { low: from, high: to } of [q.bias, q.lower_limit, q.upper_limit])
    pdf
      .rect(x0, sy(to), w, Math.max(0.4, sy(from) - sy(to)))
      .fillColor(SOFT, 0.15)
      .fill();
  pdf.fillColor(INK, 1);
  const athletes = [...new Set(pairs.map(({ athlete }) => athlete))];
  pairs.forEach((p, k) => {
    const colour = p.side === 'right' ? RIGHT : LEFT;
    drawMarker(pdf, athletes.indexOf(p.athlete), sx(means[k]), sy(differences[k]), p.side, colour);
  });
  if (q.proportional_slope && q.proportional_intercept !== null) {
    const at = (size: number) => sy(q.proportional_intercept! + q.proportional_slope!.value * size);
    pdf
      .moveTo(sx(low), at(low))
      .lineTo(sx(high), at(high))
      .lineWidth(0.8)
      .strokeColor(INK)
      .dash(1, { space: 2 })
      .stroke()
      .undash();
  }
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
    `difference, ${q.unit}: line = bias, dashes = limits of agreement, bands = their 95 % intervals, dots = line of proportional bias`,
    x0,
    y0 - 12,
    w,
    'left',
  );
  legend(pdf, athletes, x0, y0 + height + 26, w);
  pdf.x = MARGIN;
  pdf.y = y0 + height + 42;
}

const MOST_IN_LEGEND = 12;

/** Athletes by shape, sides by filling and colour. */
function legend(pdf: Pdf, athletes: string[], x0: number, y: number, w: number): void {
  const shown = athletes.slice(0, MOST_IN_LEGEND);
  const step = w / (shown.length + 2);
  label(pdf, 'left', x0, y, step, 'left');
  drawMarker(pdf, 0, x0 + 18, y + 4, 'left', LEFT);
  label(pdf, 'right', x0 + 26, y, step, 'left');
  drawMarker(pdf, 0, x0 + 49, y + 4, 'right', RIGHT);
  shown.forEach((athlete, k) => {
    const x = x0 + step * (k + 1) + 12;
    drawMarker(pdf, k, x, y + 4, 'left', INK);
    label(
      pdf,
      k === MOST_IN_LEGEND - 1 && athletes.length > MOST_IN_LEGEND ? '...' : athlete,
      x + 5,
      y,
      step - 8,
      'left',
    );
  });
}

function label(pdf: Pdf, text: string, x: number, y: number, width: number, align: 'left' | 'right' | 'center'): void {
  pdf.font(REGULAR).fontSize(7.5).fillColor(SOFT).text(text, x, y, { width, align, lineBreak: false });
}

function valueTick(value: number): string {
  return String(Number(value.toPrecision(6)));
}
