import { commonWords } from '../../shared/messages/en/view/common.ts';
import { phrasesOf } from '../app/language.ts';

const common = phrasesOf('common', commonWords);

const FORMS = ['svg', 'pdf', 'csv'] as const;
export type FigureForm = (typeof FORMS)[number];

interface FigureLinksProps {
  /** What the files are called, without an ending. */
  name: string;
  /** Where each form is read from; without it `onChoose` is called. */
  href?: (form: FigureForm) => string;
  onChoose?: (form: FigureForm) => void;
}

/** A plot as a picture for a paper, SVG or PDF with its caption, and the numbers behind it. */
export function FigureLinks({ name, href, onChoose }: FigureLinksProps) {
  const text = (form: FigureForm) => (form === 'csv' ? common('picture_numbers') : form.toUpperCase());
  return (
    <details class="no-print">
      <summary>{common('save_picture')}</summary>
      <p class="actions">
        {FORMS.map((form) =>
          href ? (
            <a key={form} class="button" href={href(form)} download={`${name}.${form}`}>
              {text(form)}
            </a>
          ) : (
            <button key={form} type="button" onClick={() => onChoose?.(form)}>
              {text(form)}
              <span class="visually-hidden"> {name}</span>
            </button>
          ),
        )}
      </p>
    </details>
  );
}
