import type uPlot from 'uplot';
import type { Contact } from '../../../shared/analysis.ts';

/**
 * Draws contacts behind a signal: shaded from touchdown (solid line) to toe-off (dashed line), with the step's number; the
 * chosen one darker.
 * @param colour reads a token by name
 */
export function drawContacts(
  plot: uPlot,
  contacts: Contact[],
  selected: number | null,
  colour: (name: string) => string,
): void {
  const { ctx, bbox } = plot;
  const { min = 0, max = 0 } = plot.scales.x;
  const ratio = devicePixelRatio;
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  ctx.clip();
  ctx.font = `600 ${12 * ratio}px ${getComputedStyle(plot.root).fontFamily}`;
  ctx.textAlign = 'center';
  for (const contact of contacts) {
    const end_s = contact.toe_off_s ?? contact.touchdown_s;
    if (end_s < min || contact.touchdown_s > max) continue;
    const x0 = plot.valToPos(contact.touchdown_s, 'x', true);
    const x1 = plot.valToPos(end_s, 'x', true);
    ctx.fillStyle = colour(contact.step === selected ? 'band-edge' : 'band');
    ctx.globalAlpha = contact.step === selected ? 0.6 : 0.55;
    ctx.fillRect(x0, bbox.top, Math.max(1, x1 - x0), bbox.height);
    ctx.globalAlpha = 1;
    ctx.strokeStyle = colour('ink');
    ctx.lineWidth = 1.25 * ratio;
    line(ctx, x0, bbox, []);
    if (contact.toe_off_s !== null) line(ctx, x1, bbox, [4 * ratio, 3 * ratio]);
    if (x1 - x0 > 10 * ratio) {
      ctx.fillStyle = colour('ink');
      ctx.fillText(String(contact.step), (x0 + x1) / 2, bbox.top + 16 * ratio);
    }
  }
  ctx.restore();
}

function line(ctx: CanvasRenderingContext2D, x: number, bbox: uPlot.BBox, dash: number[]): void {
  ctx.setLineDash(dash);
  ctx.beginPath();
  ctx.moveTo(x, bbox.top);
  ctx.lineTo(x, bbox.top + bbox.height);
  ctx.stroke();
}
