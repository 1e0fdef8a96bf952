import { createRequire } from 'node:module';
import type PDFDocument from 'pdfkit';
import type { Tone } from '../../shared/schemas/coach/report.ts';

/** A PDF that is being drawn. */
export type Pdf = InstanceType<typeof PDFDocument>;

/** Fonts that spell names of every script right; the ones built into PDF readers do not. */
export const REGULAR = createRequire(import.meta.url).resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf');
export const BOLD = REGULAR.replace('DejaVuSans.ttf', 'DejaVuSans-Bold.ttf');

/** The view's light colours, on paper (web/style/tokens.css, which tests/web/contrast.test.ts holds these to). */
export const PAPER_COLOURS = {
  ink: '#1a1714',
  soft: '#4a443d',
  rule: '#ddd7cc',
  band: '#cfc8b9',
  left: '#14406b',
  right: '#6b3d0e',
  beyond: '#9a0058',
  earlier: '#b3ab9d',
  paper: '#ffffff',
} as const satisfies Record<Tone, string>;

export const A4_WIDTH = 595.28;

/** The bytes of a document once it has been ended; call it before anything is drawn. */
export function bytesOf(document: Pdf): Promise<Buffer> {
  const chunks: Buffer[] = [];
  document.on('data', (chunk: Buffer) => chunks.push(chunk));
  return new Promise((resolve, reject) => {
    document.on('end', () => resolve(Buffer.concat(chunks)));
    document.on('error', reject);
  });
}
