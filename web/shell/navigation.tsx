import { pageTitle } from '../app/page-title.ts';
import { commonWords } from '../../shared/messages/en/view/common.ts';
import { phrasesOf } from '../app/language.ts';
import { useEffect, useRef } from 'preact/hooks';
import { pages, type Route } from '../app/router.ts';

const common = phrasesOf('common', commonWords);

/** Links to the main pages: across the top on a wide screen, under the thumb on a phone. */
export function Navigation({ path, under }: { path: string; under?: string }) {
  const shown = pages.value.filter((route) => route.nav);
  const bar = shown.filter((route) => route.nav?.place !== 'more');
  const more = shown.filter((route) => route.nav?.place !== 'bar');
  const menu = useRef<HTMLDetailsElement>(null);
  // The menu closes whenever the page changes.
  useEffect(() => {
    if (menu.current) menu.current.open = false;
  }, [path]);

  return (
    <header class="masthead">
      <a class="wordmark" href="#/">
        <Mark />
        Cinderlane
      </a>
      <nav aria-label={common('pages')}>
        <ul class="nav-bar">
          {bar.map((route) => (
            <li key={route.path} class={route.nav?.place === 'wide' ? 'wide-only' : undefined}>
              <NavLink route={route} path={under ?? path} />
            </li>
          ))}
          {more.length > 0 && (
            <li>
              <details
                class="nav-more"
                ref={menu}
                onKeyDown={(event) => {
                  if (event.key === 'Escape' && menu.current?.open) {
                    menu.current.open = false;
                    menu.current.querySelector('summary')?.focus();
                  }
                }}
                onFocusOut={(event) => {
                  const next = event.relatedTarget as Node | null;
                  if (next && menu.current && !menu.current.contains(next)) menu.current.open = false;
                }}
              >
                <summary>{common('more')}</summary>
                <ul>
                  {more.map((route) => (
                    <li key={route.path} class={route.nav?.place === 'wide' ? 'phone-only' : undefined}>
                      <NavLink route={route} path={under ?? path} />
                    </li>
                  ))}
                </ul>
              </details>
            </li>
          )}
        </ul>
      </nav>
    </header>
  );
}

function NavLink({ route, path }: { route: Route; path: string }) {
  const current = path === route.path || path.startsWith(`${route.path}/`);
  return (
    <a href={`#${route.path}`} aria-current={current ? 'page' : undefined}>
      {pageTitle(route.nav!.label)}
    </a>
  );
}

/** Three lanes with a left (round) and a right (square) contact. */
function Mark() {
  return (
    <svg viewBox="0 0 32 32" width="32" height="32" aria-hidden="true">
      <path class="mark-lane" d="M3 29 L12 3 M14 29 L18 3 M25 29 L24 3" />
      <circle class="mark-foot" cx="10.6" cy="18.6" r="3.2" />
      <rect class="mark-foot" x="17.6" y="8" width="6" height="6" />
    </svg>
  );
}
