import { PAPER_COLOURS } from '../pdf/pdf-document.ts';
import { drawFigure, type Surface } from './draw-figure.ts';
import { type Figure, FIGURE_WIDTH } from './figure.ts';
import { CIRCLE_RADIUS, markerShape } from './marker-shapes.ts';

const MARGIN = 14;
const CAPTION_LINE = 11;
/** Letters of 8 points that fit beside one another across the figure, on the safe side. */
const CAPTION_LETTERS = 112;
const ANCHORS = { left: 'start', right: 'end', center: 'middle' } as const;

/** A figure as SVG that stands by itself: white paper, fonts every reader has, title and caption included. */
export function figureSvg(figure: Figure): string {
  const parts: string[] = [];
  const end = drawFigure(svgSurface(parts), figure, MARGIN, MARGIN + 18);
  const caption = linesOf(figure.caption);
  const [width, height] = [FIGURE_WIDTH + 2 * MARGIN, end + 12 + caption.length * CAPTION_LINE + MARGIN];
  const said = caption.map(
    (line, k) =>
      `<text x="${MARGIN}" y="${n(end + 12 + k * CAPTION_LINE)}" font-size="8" fill="${PAPER_COLOURS.ink}">${escaped(line)}</text>`,
  );
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}pt" height="${n(height)}pt" viewBox="0 0 ${width} ${n(height)}" font-family="DejaVu Sans, Verdana, Arial, sans-serif" role="img" aria-labelledby="title desc">`,
    `<title id="title">${escaped(figure.title)}</title><desc id="desc">${escaped(figure.caption)}</desc>`,
    '<rect width="100%" height="100%" fill="#ffffff"/>',
    `<text x="${MARGIN}" y="${MARGIN + 11}" font-size="11" font-weight="bold" fill="${PAPER_COLOURS.ink}">${escaped(figure.title)}</text>`,
    ...parts,
    ...said,
    '</svg>\n',
  ].join('\n');
}

function svgSurface(parts: string[]): Surface {
  const points = (corners: [number, number][]) => corners.map(([x, y]) => `${n(x)},${n(y)}`).join(' ');
  return {
    rect: (x, y, width, height) => {
      parts.push(
        `<rect x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}" fill="none" stroke="${PAPER_COLOURS.soft}" stroke-width="0.7"/>`,
      );
    },
    area: (corners, opacity) => {
      parts.push(`<polygon points="${points(corners)}" fill="${PAPER_COLOURS.soft}" fill-opacity="${opacity}"/>`);
    },
    line: (corners, colour, width, dash) => {
      const dashed = dash ? ` stroke-dasharray="${dash.join(' ')}"` : '';
      parts.push(
        `<polyline points="${points(corners)}" fill="none" stroke="${PAPER_COLOURS[colour]}" stroke-width="${width}"${dashed}/>`,
      );
    },
    marker: (x, y, { side, shape }, colour) => {
      const paint =
        side === 'right'
          ? `fill="${PAPER_COLOURS[colour]}"`
          : `fill="none" stroke="${PAPER_COLOURS[colour]}" stroke-width="0.6"`;
      const corners = markerShape(shape);
      parts.push(
        corners
          ? `<polygon points="${points(corners.map(([a, b]) => [x + a, y + b]))}" ${paint}/>`
          : `<circle cx="${n(x)}" cy="${n(y)}" r="${CIRCLE_RADIUS}" ${paint}/>`,
      );
    },
    text: (text, x, y, width, align) => {
      const at = align === 'left' ? x : align === 'right' ? x + width : x + width / 2;
      parts.push(
        `<text x="${n(at)}" y="${n(y + 7)}" font-size="7.5" text-anchor="${ANCHORS[align]}" fill="${PAPER_COLOURS.soft}">${escaped(text)}</text>`,
      );
    },
  };
}

/** To a hundredth of a point. */
function n(value: number): string {
  return String(Number(value.toFixed(2)));
}

function escaped(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
}

/** Words of a caption in lines that fit. */
function linesOf(text: string): string[] {
  const lines = [''];
  for (const word of text.split(' ')) {
    const last = lines[lines.length - 1];
    if (last !== '' && last.length + word.length >= CAPTION_LETTERS) lines.push(word);
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`;
  }
  return lines;
}
