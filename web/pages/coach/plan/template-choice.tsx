import { phrasesOf } from '../../../app/language.ts';
import { planWords } from '../../../../shared/messages/en/view/plan.ts';
import type { PlanTemplate } from '../../../../shared/schemas/coach/plan.ts';
import { Citation } from '../../../parts/citation.tsx';

const t = phrasesOf('plan', planWords);

interface TemplateChoiceProps {
  templates: PlanTemplate[];
  chosen: string | null;
  onPick: (template: PlanTemplate) => void;
}

/** Sessions to start from. */
export function TemplateChoice({ templates, chosen, onPick }: TemplateChoiceProps) {
  return (
    <details class="more no-print" open={chosen === null}>
      <summary>{t('start_from_a_template')}</summary>
      <ul class="templates">
        {templates.map((template) => (
          <li key={template.key}>
            <button type="button" aria-pressed={template.key === chosen} onClick={() => onPick(template)}>
              <strong>{template.name}</strong>
              <span>{template.purpose}</span>
              <span class="small quiet">
                {template.audience && `${template.audience}. `}
                <Citation>{template.source}</Citation>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}
