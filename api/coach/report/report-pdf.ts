import PDFDocument from 'pdfkit';
import { capital } from '../../../shared/capital.ts';
import { JUDGEMENT_EN } from '../../../shared/messages/en/judgement.ts';
import type { JudgementWords } from '../../../shared/messages/judgement-words.ts';
import type { Picture, Report, Shape } from '../../../shared/schemas/coach/report.ts';
import { A4_WIDTH, BOLD, bytesOf, PAPER_COLOURS, type Pdf, REGULAR } from '../../pdf/pdf-document.ts';

const MARGIN = 38;
const WIDTH = A4_WIDTH - 2 * MARGIN;

/** Draws a report on one A4 page. */
export function reportPdf(report: Report, words: JudgementWords = JUDGEMENT_EN): Promise<Buffer> {
  const document = new PDFDocument({
    size: 'A4',
    margins: { top: MARGIN, bottom: 20, left: MARGIN, right: MARGIN },
    lang: words.language,
    displayTitle: true,
    tagged: true,
    info: { Title: `${report.name}: ${report.title}`, Creator: 'Cinderlane' },
  });
  const done = bytesOf(document);
  head(document, report);
  sentences(document, report);
  for (const picture of report.pictures) drawPicture(document, picture);
  cautions(document, report, words);
  document.end();
  return done;
}

function head(document: Pdf, report: Report): void {
  document.font(BOLD).fontSize(22).fillColor(PAPER_COLOURS.ink).text(report.name, MARGIN, MARGIN, { width: WIDTH });
  document.font(REGULAR).fontSize(12).fillColor(PAPER_COLOURS.soft).text(report.title, { width: WIDTH });
  const y = document.y + 5;
  document
    .moveTo(MARGIN, y)
    .lineTo(MARGIN + WIDTH, y)
    .lineWidth(1.5)
    .strokeColor(PAPER_COLOURS.ink)
    .stroke();
  document.y = y + 9;
}

function sentences(document: Pdf, report: Report): void {
  document.font(REGULAR).fontSize(11).fillColor(PAPER_COLOURS.ink);
  for (const sentence of report.sentences) {
    const y = document.y;
    document.rect(MARGIN, y + 4, 4.5, 4.5).fill(PAPER_COLOURS.ink);
    document.fillColor(PAPER_COLOURS.ink).text(sentence, MARGIN + 14, y, { width: WIDTH - 14, lineGap: 1.5 });
    document.y += 4;
  }
  document.y += 4;
}

function drawPicture(document: Pdf, picture: Picture): void {
  document
    .font(BOLD)
    .fontSize(10.5)
    .fillColor(PAPER_COLOURS.ink)
    .text(capital(picture.title), MARGIN, document.y, { width: WIDTH });
  const top = document.y + 3;
  const scale = WIDTH / picture.width;
  document.save().translate(MARGIN, top).scale(scale);
  for (const shape of picture.shapes) drawShape(document, shape);
  document.restore();
  document.x = MARGIN;
  document.y = top + picture.height * scale + 7;
}

function drawShape(document: Pdf, shape: Shape): void {
  const colour = PAPER_COLOURS[shape.tone];
  if (shape.kind === 'line') {
    for (const [index, [x, y]] of shape.points.entries()) {
      if (index === 0) document.moveTo(x, y);
      else document.lineTo(x, y);
    }
    if (shape.dashed) document.dash(4, { space: 3 });
    document.lineWidth(shape.width).strokeColor(colour).stroke();
    document.undash();
  } else if (shape.kind === 'area') {
    document.polygon(...shape.points.map(([x, y]) => [x, y])).fill(colour);
  } else if (shape.kind === 'mark') {
    drawMark(document, shape, colour);
  } else {
    document
      .font(shape.bold ? BOLD : REGULAR)
      .fontSize(shape.size)
      .fillColor(colour);
    const width = document.widthOfString(shape.text);
    const x = shape.anchor === 'start' ? shape.x : shape.anchor === 'middle' ? shape.x - width / 2 : shape.x - width;
    document.text(shape.text, x, shape.y - shape.size * 0.85, { lineBreak: false });
  }
}

function drawMark(document: Pdf, { form, x, y, size }: Extract<Shape, { kind: 'mark' }>, colour: string): void {
  if (form === 'ring')
    document
      .circle(x, y, size * 0.8)
      .lineWidth(1)
      .strokeColor(colour)
      .stroke();
  else if (form === 'circle') document.circle(x, y, size).fill(colour);
  else if (form === 'square') document.rect(x - size * 0.9, y - size * 0.9, size * 1.8, size * 1.8).fill(colour);
  else document.polygon([x, y - size * 1.3], [x + size, y], [x, y + size * 1.3], [x - size, y]).fill(colour);
}

function cautions(document: Pdf, report: Report, words: JudgementWords): void {
  const text = report.cautions.map((caution) => caution.text).join(' ');
  const y = document.y + 2;
  document
    .moveTo(MARGIN, y)
    .lineTo(MARGIN + WIDTH, y)
    .lineWidth(0.8)
    .strokeColor(PAPER_COLOURS.ink)
    .stroke();
  document
    .font(REGULAR)
    .fontSize(8)
    .fillColor(PAPER_COLOURS.ink)
    .text(text, MARGIN, y + 5, { width: WIDTH, lineGap: 1 });
  if (report.pictures.some((picture) => picture.shapes.some((shape) => shape.tone === 'right'))) {
    document
      .fillColor(PAPER_COLOURS.soft)
      .text(words.coach.reporting('marks'), MARGIN, document.y + 3, { width: WIDTH });
  }
}
