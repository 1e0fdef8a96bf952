import { useEffect, useRef } from 'preact/hooks';
import { place } from '../../../app/router.ts';

interface AthleteHeadProps {
  athlete_id: number | string;
  name: string;
}

const TABS = [
  { path: '', label: 'Now' },
  { path: '/course', label: 'Over time' },
  { path: '/tests', label: 'Sprint tests' },
  { path: '/strength', label: 'Strength' },
  { path: '/person', label: 'Person' },
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
        <a href="#/athletes">Athletes</a>
      </p>
      <h1>{name}</h1>
      <nav ref={tabs} class="tabs no-print" aria-label={`Pages of ${name}`}>
        <ul>
          {TABS.map(({ path, label }) => {
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
