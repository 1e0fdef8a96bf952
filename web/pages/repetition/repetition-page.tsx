import { repetitionWords } from '../../../shared/messages/en/view/repetition.ts';
import { phrasesOf } from '../../app/language.ts';
import { useState } from 'preact/hooks';
import type { Repetition, RepetitionLine, RepetitionProfile } from '../../../shared/schemas/repetition.ts';
import type { RepetitionJudgements } from '../../../shared/schemas/coach/repetition-judgements.ts';
import type { SessionWithRepetitions } from '../../../shared/schemas/session.ts';
import { paths } from '../../api.ts';
import { useDirectory } from '../../app/directory.ts';
import { type PageProps, setQuery } from '../../app/router.ts';
import { useRefresh } from '../../app/use-refresh.ts';
import { useResource } from '../../app/use-resource.ts';
import { FaultBox } from '../../parts/fault-box.tsx';
import { Cautions } from '../../parts/cautions.tsx';
import { ResourceView } from '../../parts/resource-view.tsx';
import { Acceleration } from './acceleration.tsx';
import { Faults } from './faults.tsx';
import { Headline } from './headline.tsx';
import { QualityReport } from './quality-report.tsx';
import { Provenance } from './provenance.tsx';
import { RecordingNote } from './recording-note.tsx';
import { RepetitionFigures } from './repetition-figures.tsx';
import { RepetitionHead } from './repetition-head.tsx';
import { SignalView } from './signal-view.tsx';
import { StrideProfile } from './stride-profile.tsx';

const t = phrasesOf('repetition', repetitionWords);

/** Everything about one repetition, the most wanted first: one sentence, figures, profile, signal, quality. */
export default function RepetitionPage({ params, query }: PageProps) {
  const repetition = useResource<Repetition>(paths.repetition(params.repetition_id));
  const analysed = repetition.value?.analysis != null;
  const profile = useResource<RepetitionProfile>(analysed ? paths.profile(params.repetition_id) : null);
  const waiting = repetition.value?.state === 'recorded' && !analysed && !repetition.value.fault;
  useRefresh(repetition.reload, waiting ? 1500 : null);
  const judgements = useResource<RepetitionJudgements>(analysed ? paths.judgements(params.repetition_id) : null);
  const session = useResource<SessionWithRepetitions>(
    repetition.value ? paths.session(repetition.value.session_id) : null,
  );
  const reload = () => Promise.all([repetition.reload(), profile.reload(), judgements.reload()]);
  const directory = useDirectory();
  const [selected, setSelected] = useState<number | null>(stepOf(query.get('step')));
  const select = (step: number) => {
    setSelected(step);
    setQuery('step', String(step));
  };

  return (
    <ResourceView resource={repetition} name={t('repetition')}>
      {(value) => {
        const analysis = value.analysis;
        const siblings = session.value?.repetitions.filter((other) => other.athlete_id === value.athlete_id) ?? [];
        return (
          <>
            <RepetitionHead
              repetition={value}
              athleteName={directory.athleteName(value.athlete_id)}
              siblings={siblings}
              onChanged={reload}
              lead={analysis && <Headline result={analysis.result} judgements={judgements.value} />}
            />
            {value.fault && <FaultBox fault={value.fault} />}
            {!analysis && !value.fault && <p>{value.state === 'planned' ? t('planned') : t('being_measured')}</p>}
            {analysis && (
              <>
                <RecordingNote quality={analysis.quality} />
                <RepetitionFigures
                  result={analysis.result}
                  courseTime_s={value.course_time_s}
                  timingMethod={value.timing_method}
                  judgements={judgements.value?.items ?? []}
                />
                <Faults faults={analysis.faults} />
                <StrideProfile
                  result={analysis.result}
                  profile={profile.value}
                  query={query}
                  selected={selected}
                  onSelect={select}
                  repetition_id={value.repetition_id}
                  comparable={
                    new Set(siblings.filter((other) => isAlike(other, value)).map((other) => other.repetition_id))
                  }
                />
                {profile.fault && <FaultBox fault={profile.fault} onRetry={() => void profile.reload()} />}
                <Acceleration result={analysis.result} />
                <SignalView
                  repetition_id={value.repetition_id}
                  recordings={value.recordings}
                  result={analysis.result}
                  quality={analysis.quality}
                  selected={selected}
                  onSelect={select}
                />
                <QualityReport recordings={value.recordings} quality={analysis.quality} result={analysis.result} />
                <Cautions />
                <Provenance analysis={analysis} recordings={value.recordings} onChanged={reload} />
              </>
            )}
          </>
        );
      }}
    </ResourceView>
  );
}

/** Same effort, course and start: only such repetitions are drawn behind one another. */
function isAlike(a: RepetitionLine, b: RepetitionLine): boolean {
  return (
    a.effort_percent === b.effort_percent &&
    a.course_distance_m === b.course_distance_m &&
    a.start_style === b.start_style &&
    a.belt_speed_mps === b.belt_speed_mps
  );
}

function stepOf(text: string | null): number | null {
  const step = Number(text);
  return Number.isInteger(step) && step > 0 ? step : null;
}
