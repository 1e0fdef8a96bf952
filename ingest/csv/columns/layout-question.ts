import { FaultError } from '../../../shared/fault.ts';
import type { LayoutCorrection } from '../../../shared/schemas/layout.ts';

export interface LayoutChoice {
  /** In words, for a person to pick. */
  label: string;
  /** What to pass as the layout when this choice is right. */
  correction: LayoutCorrection;
}

/**
 * The file can be read in more than one way and the ways differ in what would be measured: it is refused with the question,
 * never guessed. `choices` carries what to pass as layout for each answer.
 */
export class LayoutQuestion extends FaultError {
  readonly about: string;
  readonly choices: LayoutChoice[];

  constructor(file: string, question: { about: string; found: string; choices: LayoutChoice[]; hint?: string }) {
    const labels = question.choices.map((choice) => choice.label).join(', or ');
    super({
      code: 'LAYOUT_AMBIGUOUS',
      message: `${file}: found ${question.found}.${labels ? ` It may be ${labels}.` : ''} Nothing was read, because the file does not tell which.`,
      where: {
        file,
        about: question.about,
        choices:
          question.choices.map((choice) => `${choice.label}: ${JSON.stringify(choice.correction)}`).join(' | ') || null,
      },
      hint:
        question.hint ??
        `Say which in a layout file, for example ${JSON.stringify(question.choices[0]?.correction ?? {})}, and read the file again with it.`,
    });
    this.about = question.about;
    this.choices = question.choices;
  }
}
