import type { Picture, Shape } from '../../../../shared/schemas/coach/report.ts';

/** A report's picture on screen and in print; the same shapes make the PDF. */
export function PictureFigure({ picture }: { picture: Picture }) {
  return (
    <figure class="picture">
      <figcaption>{picture.title}</figcaption>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: on a phone the picture keeps its size and is moved sideways, by keyboard too */}
      <section class="picture-scroll" tabIndex={0} aria-label={picture.title}>
        <svg viewBox={`0 0 ${picture.width} ${picture.height}`} role="img" aria-label={picture.description}>
          {picture.shapes.map((shape, index) => (
            <Stroke key={index} shape={shape} />
          ))}
        </svg>
      </section>
    </figure>
  );
}

function Stroke({ shape }: { shape: Shape }) {
  if (shape.kind === 'text') {
    return (
      <text
        class={`tone-fill-${shape.tone}`}
        x={shape.x}
        y={shape.y}
        font-size={shape.size}
        font-weight={shape.bold ? 700 : 400}
        text-anchor={shape.anchor}
      >
        {shape.text}
      </text>
    );
  }
  if (shape.kind === 'mark') return <Mark shape={shape} />;
  const path = shape.points.map(([x, y], index) => `${index ? 'L' : 'M'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');
  if (shape.kind === 'area') return <path class={`tone-fill-${shape.tone}`} d={`${path}Z`} />;
  return (
    <path
      class={`tone-line-${shape.tone}`}
      d={path}
      stroke-width={shape.width}
      stroke-dasharray={shape.dashed ? '4 3' : undefined}
    />
  );
}

function Mark({ shape: { form, x, y, size, tone } }: { shape: Extract<Shape, { kind: 'mark' }> }) {
  if (form === 'ring') return <circle class={`tone-line-${tone}`} cx={x} cy={y} r={size * 0.8} />;
  if (form === 'circle') return <circle class={`tone-fill-${tone}`} cx={x} cy={y} r={size} />;
  if (form === 'square') {
    return (
      <rect class={`tone-fill-${tone}`} x={x - size * 0.9} y={y - size * 0.9} width={size * 1.8} height={size * 1.8} />
    );
  }
  return (
    <path
      class={`tone-fill-${tone}`}
      d={`M${x} ${y - size * 1.3}L${x + size} ${y}L${x} ${y + size * 1.3}L${x - size} ${y}Z`}
    />
  );
}
