import type { Entry } from '../../src/journal/entry.ts';
import { host } from '../host.ts';
import { wallMillis, type Now } from '../../src/time/instant.ts';
import { monotonicNow } from '../monotonic.ts';
import { demoFolder, stateFolder, stateRoot } from '../storage/state-folder.ts';
import type { Upkeep } from '../upkeep/upkeep.ts';
import type { Console } from './console.ts';
import { entryJson, entryLine, isToldUnasked } from './entry-words.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { acceptedFarm, type AcceptedFarm } from './farm-argument.ts';
import { Refusal } from './refusal.ts';
import { isSimulated, type Prepared, type RunOptions } from './run-options.ts';
import { wrapped } from './wrap.ts';

/** The words of an entry begin at this column, and go on there on the next line. */
const WORDS_COLUMN = '2026-07-14 05:31  '.length;

/** An invented farm runs in a simulated shed; for a farm with plants the board must be named. */
const boardAsked = ({ farm, file }: AcceptedFarm, { board }: RunOptions): string => {
  if (board !== undefined) return board;
  if (farm.invented !== undefined) return 'demo';
  throw new Refusal(
    `run ${file}: which board? Allowed: --board demo for a simulated shed, --board emulated for one on emulated firmware, --board auto, or a port such as --board /dev/ttyACM0 (see: rillkeeper board list).`,
    EXIT.usage,
  );
};

/** The simulated world stays on the disk where a real board is driven: the host of a shed is a small machine. */
const prepared = async (
  accepted: AcceptedFarm,
  port: string,
  options: RunOptions,
  console: Console,
): Promise<() => Prepared> => {
  if (isSimulated(port)) {
    const { demoBoard } = await import('./run-demo.ts');
    return demoBoard(accepted, port, options, console);
  }
  const { realBoard } = await import('./run-real.ts');
  return realBoard(accepted, port, options, console);
};

interface FarmFound {
  readonly accepted: AcceptedFarm;
  /** The name that the farm had at the start before this one. */
  readonly before: string | null;
}

/** The farm file; on a real pump the last good one stands in for one that is bad. */
const farmFor = async (path: string, options: RunOptions, console: Console): Promise<FarmFound> => {
  if (options.board === undefined || isSimulated(options.board)) {
    return { accepted: await acceptedFarm(path), before: null };
  }
  const { farmToRun } = await import('../start/last-good-farm.ts');
  const found = await farmToRun(path, stateRoot(), new Date());
  if (!found.ok) throw new Refusal(found.says, EXIT.badInput, found.problems);
  if (found.warning !== null) console.talk(found.warning);
  return found;
};

/** A simulated shed has nobody to call and nothing to remember. */
const upkeepOf = async (
  { accepted: { farm, file, text }, before }: FarmFound,
  port: string,
  console: Console,
): Promise<Upkeep | null> => {
  if (isSimulated(port)) return null;
  const { openUpkeep } = await import('../upkeep/upkeep.ts');
  const now = (): Now => ({ monotonic: monotonicNow(), wall: wallMillis(Date.now()) });
  const { leftBehind } = await import('../start/left-behind.ts');
  const left = leftBehind(farm.farm, before);
  if (left !== null) console.talk(left);
  return openUpkeep({
    farm,
    file,
    text,
    folder: stateFolder(farm.farm),
    leftBehind: left === null ? 'nothing' : 'a-book',
    now,
    talk: console.talk,
  });
};

/** `rillkeeper run FARM`: the controller on a board, real or in a simulated shed. */
export const run = async (path: string, options: RunOptions, console: Console): Promise<ExitCode> => {
  const found = await farmFor(path, options, console);
  const { accepted } = found;
  const { farm } = accepted;
  const port = boardAsked(accepted, options);
  const prepare = await prepared(accepted, port, options, console);
  const upkeep = await upkeepOf(found, port, console);
  if (options.rehearse === true && (upkeep?.safeMode ?? null) === null) {
    const { rehearseFirst } = await import('./rehearse-first.ts');
    await rehearseFirst(accepted, options.json === true ? 'json' : 'text', console);
  }
  const board = prepare();
  const append = (entries: readonly Entry[]): void => {
    for (const entry of entries) {
      if (options.json === true) {
        console.out(entryJson(entry));
        continue;
      }
      if (!isToldUnasked(entry)) continue;
      const line = entryLine(entry, farm.place.timeZone);
      console.out(console.outAtTerminal ? wrapped(line, console.columns, WORDS_COLUMN) : line);
    }
  };
  await host({
    ...board,
    farm,
    folder: board.simulated ? demoFolder(farm.farm) : stateFolder(farm.farm),
    journal: { append },
    upkeep,
    stop: upkeep === null ? board.stop : AbortSignal.any([board.stop, upkeep.ends]),
    talk: console.talk,
  });
  return upkeep?.ends.aborted === true && !board.stop.aborted ? EXIT.renewed : EXIT.done;
};
