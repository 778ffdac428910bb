/** The sheets of the page as text, for a file that must fetch nothing. */
import changes from './changes.css';
import charts from './charts.css';
import colours from './colours.css';
import drawing from './drawing.css';
import page from './page.css';
import paper from './paper.css';
import table from './table.css';

export const sheets = [colours, page, table, drawing, charts, changes, paper].join('\n');
