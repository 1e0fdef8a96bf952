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
  return (
    <>
      <p class="trail">
        <a href="#/athletes">Athletes</a>
      </p>
      <h1>{name}</h1>
      <nav class="tabs no-print" aria-label={`Pages of ${name}`}>
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
