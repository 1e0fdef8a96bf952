import { FaultError, fault } from '../../../shared/fault.ts';
import { because, type CodedReason } from '../../../shared/reason.ts';
import type { LayoutCorrection } from '../../../shared/schemas/layout.ts';

export interface LayoutChoice {
  /** For a person to pick. */
  label: CodedReason;
  /** What to pass as the layout when this choice is right. */
  correction: LayoutCorrection;
}

/**
 * The file can be read in more than one way and the ways differ in what would be measured: it is refused with the question,
 * never guessed. `choices` carries what to pass as layout for each answer. Question, choices and advice are codes and values
 * (shared/messages/en/layout-reasons.ts).
 */
export class LayoutQuestion extends FaultError {
  readonly about: string;
  readonly choices: LayoutChoice[];

  constructor(
    file: string,
    question: { about: string; found: CodedReason; choices: LayoutChoice[]; hint?: CodedReason },
  ) {
    const { about, found, choices } = question;
    const offered = choices.map(({ label, correction }) => ({ label, correction: JSON.stringify(correction) }));
    super(
      fault(
        'LAYOUT_AMBIGUOUS',
        {
          file,
          found,
          choices: choices.map(({ label }) => label),
          hint: question.hint ?? because('do_layout', { example: offered[0]?.correction ?? '{}' }),
        },
        { file, about, found, choices: offered.length > 0 ? because('choices', { choices: offered }) : null },
      ),
    );
    this.about = about;
    this.choices = choices;
  }
}
