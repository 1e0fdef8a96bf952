import { startLanguage } from './app/language.ts';
import { render } from 'preact';
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import './style/tokens.css';
import './style/base.css';
import './shell/masthead.css';
import './style/controls.css';
import './style/surfaces.css';
import './parts/plot/plots.css';
import './style/numbers.css';
import './style/tables.css';
import './style/lists.css';
import './style/pages.css';
import './pages/repetition/repetition.css';
import './pages/repetition/quality.css';
import './pages/files/files.css';
import './parts/layout-editor/layout-editor.css';
import './style/narrow.css';
import './style/print.css';
import { Layout } from './shell/layout.tsx';
import { keepShell } from './shell/offline/keep-shell.ts';
import { startTheme } from './app/theme.ts';
import { setRoutes } from './app/router.ts';
import { ARCHIVE_HOME, ARCHIVE_ROUTES } from './archive-routes.ts';
import { HOME, ROUTES } from './routes.ts';

startTheme();
// The same files serve a club's view and an archive's pages; the page itself says which (`vite.config.ts`).
const ofArchive = document.documentElement.dataset.serves === 'archive';
if (ofArchive) setRoutes(ARCHIVE_ROUTES, ARCHIVE_HOME);
else setRoutes(ROUTES, HOME);
// Drawn in its language from the first sight on.
await startLanguage();
render(<Layout />, document.getElementById('view')!);
// A keeper without network has nothing to look at.
if (!ofArchive) keepShell();
