import { NO_SENSES, absorbed } from '../../src/sense/senses.ts';
import { readings } from '../../src/sense/readings.ts';
import { createBoardLink, type BoardLink } from '../devices/board-link.ts';
import { serialLines } from '../devices/serial-lines.ts';
import { realTimers } from '../devices/timers.ts';
import { realClock } from '../real-clock.ts';
import { readCalibration } from '../storage/calibration-file.ts';
import { stateFolder } from '../storage/state-folder.ts';
import type { Press } from '../../src/ports/board.ts';
import { afterMinutes, afterSeconds } from '../../src/time/instant.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { acceptedFarm, type AcceptedFarm } from './farm-argument.ts';
import { readingData, readingLine } from './reading-words.ts';
import { Refusal } from './refusal.ts';
import { stopSignal } from './stop-signal.ts';
import { spanMinutes } from './times.ts';
import { wiringOf } from './wiring-argument.ts';
import { wrapped } from './wrap.ts';

export interface WatchOptions {
  readonly board: string;
  readonly for?: string;
  readonly json?: boolean;
}

/** Longer than a board needs to start and say who it is. */
const FIND_SECONDS = 15;

const pressWords = (press: Press): string => {
  if (press === 'short' || press === 'long') return press;
  return press.heldSeconds === 0
    ? 'long; the board takes it for wet, and holds nothing'
    : `long; the board holds the pump for ${press.heldSeconds} s`;
};

/** A board that is only looked at: its relay, buzzer and lamp are left alone. */
export const lookedAt = (accepted: AcceptedFarm, port: string): BoardLink =>
  createBoardLink({
    wiring: wiringOf(accepted),
    deadBoard: accepted.farm.deadBoard,
    use: 'look',
    lines: serialLines,
    port,
    timers: realTimers,
  });

/** What to look at where no board answered. */
const lookedForHint = (why: string): string => {
  if (why.includes('another program'))
    return 'End the run on this board first, or ask: rillkeeper status FARM';
  if (why.includes('no right')) return 'Then try again.';
  return 'Look at its cable and the lamp of the board, and which ports there are: rillkeeper board list';
};

/** Waits until the board answers. @throws Refusal with the last reason when it does not */
export const answering = async (board: BoardLink, stop: AbortSignal): Promise<void> => {
  const clock = realClock(stop);
  const patience = afterSeconds(clock.now().monotonic, FIND_SECONDS);
  for (;;) {
    const link = board.link();
    if (link.kind === 'up' || stop.aborted) return;
    if (clock.now().monotonic > patience) {
      await board.close();
      throw new Refusal(`No board answers: ${link.why}. ${lookedForHint(link.why)}`, EXIT.noBoard);
    }
    await clock.until(afterSeconds(clock.now().monotonic, 0.1));
  }
};

/** `rillkeeper board watch FARM --board PORT`: every reading once a second, with its quality and age. */
export const boardWatch = async (
  path: string,
  options: WatchOptions,
  console: Console,
): Promise<ExitCode> => {
  const accepted = await acceptedFarm(path);
  const { farm } = accepted;
  const wiring = wiringOf(accepted);
  const minutes = options.for === undefined ? null : spanMinutes(options.for, '--for');
  const stop = AbortSignal.any([stopSignal(), console.unread]);
  const board = lookedAt(accepted, options.board);
  await answering(board, stop);
  console.talk(
    wrapped(
      `Looking at ${options.board}: this command asks for no flood. A board with own firmware floods by its table all the same: pull the pump's plug before hands go in. Ctrl-C ends it.`,
      console.columns,
    ),
  );
  const stored = await readCalibration(stateFolder(farm.farm));
  const calibration = stored.kind === 'found' ? stored.calibration : null;
  const clock = realClock(stop);
  const end = minutes === null ? Infinity : afterMinutes(clock.now().monotonic, minutes);
  let senses = NO_SENSES;
  let lines = 0;
  while (!stop.aborted && clock.now().monotonic < end) {
    await clock.until(afterSeconds(clock.now().monotonic, 1));
    const { monotonic, wall } = clock.now();
    senses = absorbed(senses, board.samples(), monotonic);
    const shown = readings(farm, wiring, senses, calibration, monotonic).map(readingData);
    const link = board.link();
    const presses = board.presses();
    if (options.json === true) {
      const at = wall === 'unknown' ? null : new Date(wall).toISOString();
      console.out(JSON.stringify({ at, link, presses, readings: shown }));
      continue;
    }
    const text = [
      link.kind === 'up' ? 'The board answers.' : `The board does not answer: ${link.why}`,
      ...shown.map((reading) => readingLine(reading.name, reading, console.columns)),
      ...presses.map((press) => `  the button was pressed (${pressWords(press)})`),
    ].join('\n');
    // At a terminal the readings stand still and only their values change.
    console.out(console.outAtTerminal && lines > 0 ? `\u001b[${lines}A\u001b[J${text}` : text);
    lines = text.split('\n').length;
  }
  await board.close();
  return EXIT.done;
};
