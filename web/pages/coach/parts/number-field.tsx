import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';

const common = phrasesOf('common', commonWords);

interface NumberFieldProps {
  label: string;
  value: number | null;
  min?: number;
  max?: number;
  whole?: boolean;
  /** Printed under the field. */
  help?: ComponentChildren;
  onChange: (value: number) => void;
  /** Given: an emptied field calls this; otherwise it goes back to the last number. */
  onEmpty?: () => void;
}

/** A labelled number. While a text is no allowed number it stays as typed and says so; nothing is changed by it. */
export function NumberField({ label, value, min, max, whole = false, help, onChange, onEmpty }: NumberFieldProps) {
  const [text, setText] = useState(value === null ? '' : String(value));
  useEffect(() => {
    setText((old) => (parse(old) === value ? old : value === null ? '' : String(value)));
  }, [value]);
  const number = parse(text);
  const wrong = text !== '' && !allowed(number, min, max, whole);
  return (
    <label class="field">
      <span>{label}</span>
      <input
        type="text"
        inputMode={whole ? 'numeric' : 'decimal'}
        value={text}
        aria-invalid={wrong ? 'true' : undefined}
        onInput={(event) => {
          const typed = event.currentTarget.value;
          setText(typed);
          const next = parse(typed);
          if (typed.trim() === '') onEmpty?.();
          else if (allowed(next, min, max, whole)) onChange(next);
        }}
        onBlur={() => {
          if (text.trim() === '' && !onEmpty && value !== null) setText(String(value));
        }}
      />
      {wrong && (
        <span class="small field-wrong">
          {whole ? common('a_whole_number') : common('a_number')}
          {min !== undefined && common('from_2', { min })}
          {max !== undefined && common('to_2', { max })}
        </span>
      )}
      {help && !wrong && <span class="small quiet">{help}</span>}
    </label>
  );
}

/** Reads a decimal comma as well as a point. */
function parse(text: string): number {
  return text.trim() === '' ? Number.NaN : Number(text.trim().replace(',', '.'));
}

function allowed(value: number, min = -Infinity, max = Infinity, whole = false): boolean {
  return Number.isFinite(value) && value >= min && value <= max && (!whole || Number.isInteger(value));
}
