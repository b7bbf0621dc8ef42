import '@fontsource-variable/source-sans-3';
import './views/tokens.css';
import './views/base.css';
import './views/shell.css';
import './views/block/block.css';
import './views/block/block-list.css';
import './views/block/desk.css';
import './views/block/findings.css';
import './views/block/drawing-lists.css';
import './views/block/new-block.css';
import './views/block/board-tools.css';
import './views/block/narrow.css';
import { currentLanguage } from './words/language.ts';
import { startLanguage } from './workspace/language.ts';

// First the language: what is loaded after it may make its texts at once.
await startLanguage();
document.documentElement.lang = currentLanguage();
await import('./page.tsx');
