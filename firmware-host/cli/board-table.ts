import { setupBlock } from '../../src/farm/keeper-setup.ts';
import { setupDifferences } from '../devices/keeper/setup-compare.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { namedPort, withKeeper } from './keeper-dialogue.ts';
import { keeperFarm, type KeeperFarm } from './keeper-farm.ts';
import {
  isSameTable,
  putTable,
  slotWords,
  tableLines,
  tableOnBoard,
  tableRows,
  type BoardTable,
} from './keeper-tables.ts';
import { Refusal } from './refusal.ts';
import { wrapped } from './wrap.ts';

export interface TableOptions {
  readonly board: string;
  readonly write?: boolean;
  readonly json?: boolean;
}

/** A board of another farm must not get this one's table. @throws Refusal with every difference */
export const refuseOtherSetup = (
  { accepted, farm, wiring }: KeeperFarm,
  setup: Uint8Array,
  port: string,
): void => {
  const differences = setupDifferences(setup, setupBlock(farm, wiring));
  if (differences.length === 0) return;
  throw new Refusal(
    [
      `${port}: this board was not flashed for ${accepted.file} as it stands:`,
      ...differences.map(({ says }) => `  ${says}`),
      `Flash it: rillkeeper board flash ${accepted.file} --board ${port}`,
    ].join('\n'),
    EXIT.badInput,
    differences,
  );
};

const sentence = (board: BoardTable, isSame: boolean, date: string): string =>
  isSame
    ? `The board has the table of the plan of ${date} (${slotWords(board)}).`
    : `The board has another table than the plan of ${date} gives (${slotWords(board)}).`;

const rowsText = ({ table }: KeeperFarm, board: BoardTable, columns: number): readonly string[] => {
  if (board.read.kind === 'unreadable') {
    return [
      `  This program cannot read the board's table: ${board.read.why}.`,
      '  By the plan:',
      ...tableLines(table),
    ];
  }
  return tableRows(table, board.read.table).flatMap(({ from, plan, board: kept, same }) =>
    same
      ? [wrapped(`  from ${from}  the same: ${plan}`, columns, 14)]
      : [
          wrapped(`  from ${from}  plan   ${plan}`, columns, 21),
          wrapped(`              board  ${kept}`, columns, 21),
        ],
  );
};

/** `rillkeeper board table FARM --board PORT [--write]` */
export const boardTable = async (
  path: string,
  options: TableOptions,
  console: Console,
): Promise<ExitCode> => {
  const port = namedPort(options.board);
  const ready = await keeperFarm(path, port);
  const longestOn = Math.floor(ready.farm.pump.longestOnMinutes * 60);
  return withKeeper(port, async (dialogue) => {
    refuseOtherSetup(ready, dialogue.hello.setup, port);
    const before = await tableOnBoard(dialogue, longestOn);
    const wasSame = isSameTable(before, ready.table);
    const writes = options.write === true && !wasSame;
    const board = writes ? await putTable(dialogue, ready.table, longestOn) : before;
    const isSame = isSameTable(board, ready.table);
    for (const says of ready.says) console.talk(wrapped(says, console.columns));
    if (options.json === true) {
      const kept = board.read.kind === 'table' ? board.read.table : null;
      const { date, table } = ready;
      const data = {
        port,
        date,
        same: isSame,
        written: writes,
        plan: table,
        board: kept,
        slot: board.slot,
        seq: board.seq,
      };
      console.out(JSON.stringify(data, null, 2));
    } else {
      console.out(
        [
          sentence(board, isSame, ready.date),
          ...rowsText(ready, board, console.columns),
          ...(writes ? ['Written and read back.'] : []),
        ].join('\n'),
      );
      if (!isSame) console.talk('To put it: add --write. A run on this board does it by itself.');
    }
    return isSame ? EXIT.done : EXIT.notWell;
  });
};
