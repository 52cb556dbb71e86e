import { CHOICE_HEADS, type ChoiceRow } from '../cli/tune-table.ts';
import { escaped, marked, paragraph } from './markup.ts';

const headOf = (column: number): string =>
  (CHOICE_HEADS[column] ?? []).filter((words) => words !== '').join(' ');

const SAFE = CHOICE_HEADS.findIndex(([, below]) => below === 'safe');

const planCell = ({ isSmallest, isPresent, cells }: ChoiceRow): string =>
  [
    `<th scope="row">${escaped(cells[0] ?? '')}`,
    ...(isSmallest ? ['<b>→ fewest that are safe</b>'] : []),
    ...(isPresent ? ['<b>○ plan of the farm file</b>'] : []),
  ].join(' ');

/** The choices as at the terminal; each cell names its column where the page is too narrow for a table. */
export const choiceRowsTable = (rows: readonly ChoiceRow[], says: string): string =>
  [
    '<table class="choices"><thead><tr>',
    ...CHOICE_HEADS.map((_, column) => `<th scope="col">${escaped(headOf(column))}`),
    '</thead><tbody>',
    ...rows.map((row) => {
      const fails = row.choice.judged?.isSafe === false;
      const cells = row.cells.slice(1).map((cell, place) => {
        const column = place + 1;
        const shown = column === SAFE && fails ? marked('danger', cell) : escaped(cell);
        return `<td data-head="${escaped(headOf(column))}">${cell === '' ? '–' : shown}`;
      });
      return `<tr${row.isSmallest ? ' class="smallest"' : ''}>${planCell(row)}${cells.join('')}`;
    }),
    '</tbody></table>',
    paragraph(says),
  ].join('\n');
