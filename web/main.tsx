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
import './style/print.css';
import { Layout } from './shell/layout.tsx';
import { startTheme } from './app/theme.ts';
import { setRoutes } from './app/router.ts';
import { HOME, ROUTES } from './routes.ts';

startTheme();
setRoutes(ROUTES, HOME);
// Drawn in its language from the first sight on.
await startLanguage();
render(<Layout />, document.getElementById('view')!);
