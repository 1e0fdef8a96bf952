import { phrasesOf } from '../../../app/language.ts';
import { commonWords } from '../../../../shared/messages/en/view/common.ts';
import { athletesWords } from '../../../../shared/messages/en/view/athletes.ts';
import { useEffect, useRef } from 'preact/hooks';
import { place } from '../../../app/router.ts';

const t = phrasesOf('athletes', athletesWords);
const common = phrasesOf('common', commonWords);

interface AthleteHeadProps {
  athlete_id: number | string;
  name: string;
}

const tabsNow = () => [
  { path: '', label: t('now') },
  { path: '/course', label: t('over_time') },
  { path: '/tests', label: t('sprint_tests') },
  { path: '/strength', label: t('strength') },
  { path: '/person', label: t('person') },
];

/** Name of the athlete and the ways to look at them. */
export function AthleteHead({ athlete_id, name }: AthleteHeadProps) {
  const current = place.value.path;
  const tabs = useRef<HTMLElement>(null);
  // On a phone the row of pages is wider than the screen: the one that is open must be in sight.
  useEffect(() => {
    tabs.current?.querySelector('[aria-current]')?.scrollIntoView({ block: 'nearest', inline: 'center' });
  }, [current]);
  return (
    <>
      <p class="trail">
        <a href="#/athletes">{common('page_Athletes')}</a>
      </p>
      <h1>{name}</h1>
      <nav ref={tabs} class="tabs no-print" aria-label={t('pages_of', { name })}>
        <ul>
          {tabsNow().map(({ path, label }) => {
            const href = `/athletes/${athlete_id}${path}`;
            return (
              <li key={path}>
                <a class="tabs-link" href={`#${href}`} aria-current={current === href ? 'page' : undefined}>
                  {label}
                </a>
              </li>
            );
          })}
        </ul>
      </nav>
    </>
  );
}
