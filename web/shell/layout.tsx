import { pageTitle } from '../app/page-title.ts';
import { commonWords } from '../../shared/messages/en/view/common.ts';
import { phrasesOf, speech } from '../app/language.ts';
import type { ComponentType } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { FaultBox } from '../parts/fault-box.tsx';
import { ReadOnlyNote } from '../parts/read-only-note.tsx';
import { Unexpected } from '../parts/unexpected.tsx';
import { UndoBar } from '../parts/undo.tsx';
import { faultOf } from '../client.ts';
import type { Fault } from '../../shared/fault.ts';
import { Navigation } from './navigation.tsx';
import { type PageProps, place } from '../app/router.ts';

const common = phrasesOf('common', commonWords);

type Loaded = { path: string; Page: ComponentType<PageProps> } | { path: string; fault: Fault };

/** Frame around every page: skip link, navigation, the page itself, undo bar. */
export function Layout() {
  const { route, path, params, query } = place.value;
  const [loaded, setLoaded] = useState<Loaded | null>(null);
  const main = useRef<HTMLElement>(null);
  const firstPage = useRef(true);

  useEffect(() => {
    document.title = route ? `${pageTitle(route.title)} - Cinderlane` : `${common('not_found')} - Cinderlane`;
    if (!route) return;
    let current = true;
    route.page().then(
      (module) => current && setLoaded({ path: route.path, Page: module.default }),
      (error) => current && setLoaded({ path: route.path, fault: faultOf(error) }),
    );
    return () => {
      current = false;
    };
  }, [route, speech.value]);

  // A new page starts at its top, and a screen reader or the keyboard starts there too.
  useEffect(() => {
    if (firstPage.current) {
      firstPage.current = false;
      return;
    }
    window.scrollTo(0, 0);
    main.current?.focus({ preventScroll: true });
  }, [path]);

  return (
    <>
      <button type="button" class="skip-link" onClick={() => main.current?.focus()}>
        {common('skip')}
      </button>
      <Navigation path={path} under={route?.under} />
      <main id="main" tabIndex={-1} ref={main}>
        <ReadOnlyNote />
        <Unexpected path={path} />
        {!route ? (
          <NotFound path={path} />
        ) : loaded?.path !== route.path ? (
          <p class="quiet" role="status">
            {common('opening', { page: pageTitle(route.title) })}
          </p>
        ) : 'fault' in loaded ? (
          <FaultBox fault={loaded.fault} />
        ) : (
          <loaded.Page key={path} params={params} query={query} />
        )}
      </main>
      <UndoBar />
    </>
  );
}

function NotFound({ path }: { path: string }) {
  return (
    <>
      <h1>{common('nothing_here')}</h1>
      <p>
        {common('no_page_at')} <code>{path}</code>. <a href="#/">{common('to_first_page')}</a>
      </p>
    </>
  );
}
