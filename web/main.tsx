import { render } from 'preact';
import './style/tokens.css';
import './style/base.css';
import './style/masthead.css';
import './style/controls.css';
import './style/surfaces.css';
import './style/plots.css';
import './style/numbers.css';
import './style/tables.css';
import './style/lists.css';
import './style/pages.css';
import './style/repetition.css';
import './style/quality.css';
import './style/files.css';
import './style/layout-editor.css';
import './style/print.css';
import { Layout } from './app/layout.tsx';

render(<Layout />, document.getElementById('view')!);
