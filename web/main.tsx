import { render } from 'preact';
import './style/tokens.css';
import './style/base.css';
import './style/parts.css';
import './style/plots.css';
import './style/pages.css';
import './style/print.css';
import { Layout } from './app/layout.tsx';

render(<Layout />, document.getElementById('view')!);
