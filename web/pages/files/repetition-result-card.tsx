import { phrasesOf } from '../../app/language.ts';
import { filesWords } from '../../../shared/messages/en/view/files.ts';
import { useState } from 'preact/hooks';
import type { RepetitionJudgements } from '../../../shared/schemas/coach/repetition-judgements.ts';
import type { Repetition, RepetitionProfile } from '../../../shared/schemas/repetition.ts';
import { paths } from '../../api.ts';
import { describeCourse } from '../../app/describe.ts';
import { useDirectory } from '../../app/directory.ts';
import { useResource } from '../../app/use-resource.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { ProfilePlot } from '../../parts/profile-plot.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';
import { Headline } from '../repetition/headline.tsx';
import { RecordingNote } from '../repetition/recording-note.tsx';
import { RepetitionFigures } from '../repetition/repetition-figures.tsx';

const t = phrasesOf('files', filesWords);

/** The result of an import, in short: the sentence, the figures, contact time step by step; the rest one tap away. */
export function RepetitionResultCard({ repetition_id }: { repetition_id: number }) {
  const repetition = useResource<Repetition>(paths.repetition(repetition_id));
  const analysis = repetition.value?.analysis ?? null;
  const profile = useResource<RepetitionProfile>(analysis ? paths.profile(repetition_id) : null);
  const judgements = useResource<RepetitionJudgements>(analysis ? paths.judgements(repetition_id) : null);
  const directory = useDirectory();
  const [selected, setSelected] = useState<number | null>(null);

  return (
    <ResourceView resource={repetition} name={t('result')}>
      {(value) => (
        <div class="result-card">
          <h3>
            {t('repetition', { name: directory.athleteName(value.athlete_id), order_number: value.order_number })}
          </h3>
          <p class="quiet">{describeCourse(value)}</p>
          {value.fault && <FaultBox fault={value.fault} />}
          {analysis && (
            <>
              <Headline result={analysis.result} judgements={judgements.value} />
              <RecordingNote quality={analysis.quality} />
              <RepetitionFigures
                result={analysis.result}
                courseTime_s={value.course_time_s}
                timingMethod={value.timing_method}
                judgements={judgements.value?.items ?? []}
              />
              <ProfilePlot
                quantity="contact_time_ms"
                by="step"
                contacts={analysis.result.contacts.filter(
                  (contact) =>
                    analysis.result.course_end_s === null || contact.touchdown_s <= analysis.result.course_end_s,
                )}
                band={profile.value?.baseline.quantities.contact_time_ms?.by_step ?? []}
                earlier={(profile.value?.earlier_today ?? []).map((earlier) => earlier.contacts)}
                selected={selected}
                onSelect={setSelected}
                height={240}
              />
            </>
          )}
          <p class="actions">
            <a class="button" href={`#${paths.repetition(repetition_id)}`}>
              {t('open_every_contact')}
            </a>
          </p>
        </div>
      )}
    </ResourceView>
  );
}
