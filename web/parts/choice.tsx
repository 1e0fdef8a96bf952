import { useId } from 'preact/hooks';

interface ChoiceProps<T extends string> {
  legend: string;
  /** Keeps the legend for screen readers only, where the place says enough. */
  quiet?: boolean;
  value: T;
  options: readonly { value: T; label: string; disabled?: boolean }[];
  onChange: (value: T) => void;
}

/** One of a few: radio buttons drawn as a row of large buttons; arrow keys move between them. */
export function Choice<T extends string>({ legend, quiet = false, value, options, onChange }: ChoiceProps<T>) {
  const name = useId();
  return (
    <fieldset class="choice">
      <legend class={quiet ? 'visually-hidden' : undefined}>{legend}</legend>
      <div class="choice-row">
        {options.map((option) => (
          <label key={option.value}>
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={option.value === value}
              disabled={option.disabled}
              onChange={() => onChange(option.value)}
            />
            <span>{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}
