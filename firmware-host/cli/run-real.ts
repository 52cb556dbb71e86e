import { afterMinutes, type WallMillis } from '../../src/time/instant.ts';
import { createBoardLink } from '../devices/board-link.ts';
import { createPortPower } from '../devices/port-power.ts';
import { serialLines } from '../devices/serial-lines.ts';
import { realTimers } from '../devices/timers.ts';
import { linuxPorts } from '../devices/usb-ports.ts';
import { keeperOf } from '../keeper-of.ts';
import { realClock } from '../real-clock.ts';
import { boardClaimed } from '../storage/one-board.ts';
import { claimed, ownerWords } from '../storage/one-host.ts';
import { stateFolder } from '../storage/state-folder.ts';
import type { Console } from './console.ts';
import { EXIT } from './exit-code.ts';
import type { AcceptedFarm } from './farm-argument.ts';
import { Refusal } from './refusal.ts';
import type { Prepared, RunOptions } from './run-options.ts';
import { pumpStopSignal } from './stop-signal.ts';
import { spanMinutes } from './times.ts';
import { wiringOf } from './wiring-argument.ts';
import { wrapped } from './wrap.ts';

/** Options that only a simulated shed can serve. */
const DEMO_ONLY: readonly (keyof RunOptions)[] = [
  'speed',
  'from',
  'seed',
  'fault',
  'weather',
  'columns',
  'hotDay',
  'drawnDays',
];

const refuseDemoOptions = (options: RunOptions, port: string): void => {
  const asked = DEMO_ONLY.filter((key) => {
    const value = options[key];
    return value !== undefined && !(Array.isArray(value) && value.length === 0);
  });
  const [first] = asked;
  if (first === undefined) return;
  const flag = `--${first.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
  throw new Refusal(`${flag}: only a simulated shed can do that; found --board ${port}.`, EXIT.usage);
};

/** A defect must not leave the pump as it is, as far as this process can still help it. */
const letGoOnDefect = (close: () => Promise<void>, console: Console): void => {
  let letting = false;
  process.on('uncaughtException', (error) => {
    // A defect seldom comes alone; the second must not end the process before the relay has heard of the first.
    if (letting) return;
    letting = true;
    console.talk(
      `A defect in rillkeeper; the pump is given up: the relay of a stock board is let go, a board with a keeper floods by its table. Please report it with this text.\n${error.stack ?? error.message}`,
    );
    void close().finally(() => {
      process.exit(EXIT.internal);
    });
  });
};

/** @throws Refusal where another host runs the farm, or has the board. */
const claimedAlone = async ({ farm, file }: AcceptedFarm, port: string): Promise<void> => {
  const folder = await claimed(stateFolder(farm.farm));
  if (folder.kind === 'taken') {
    throw new Refusal(
      `Another rillkeeper runs ${farm.farm} on this machine already (${ownerWords(folder.pid)}); one pump has one host. See: rillkeeper status ${file}`,
      EXIT.anotherHost,
    );
  }
  const listed = port === 'auto' ? await serialLines.candidates().catch(() => []) : [];
  const board = await boardClaimed({
    port: port === 'auto' ? null : port,
    farm: farm.farm,
    listed: listed.map(({ name }) => name),
  });
  if (board.kind === 'taken') {
    throw new Refusal(
      `--board ${port}: another rillkeeper drives the board already (${ownerWords(board.pid)}), with a state folder of its own, as a service or another user has; one pump has one host. Leave that one, or end it first (a service: sudo systemctl stop rillkeeper), or name the port of another board.`,
      EXIT.anotherHost,
    );
  }
};

/** A run on a real board, checked before anything is opened. */
export const realBoard = async (
  accepted: AcceptedFarm,
  port: string,
  options: RunOptions,
  console: Console,
): Promise<() => Prepared> => {
  const { farm, file } = accepted;
  refuseDemoOptions(options, port);
  if (farm.invented !== undefined) {
    throw new Refusal(
      `${file}: this farm is invented, and its plan fits no real plants; found --board ${port}. Copy the file, make it yours, and delete the key "invented".`,
    );
  }
  const wiring = wiringOf(accepted);
  const minutes = options.for === undefined ? null : spanMinutes(options.for, '--for');
  await claimedAlone(accepted, port);
  return () => {
    // A full disk or a reader who has gone takes the words, not the floods.
    const stop = pumpStopSignal();
    let believedWall: WallMillis | 'unknown' = 'unknown';
    const believes = (wall: WallMillis | 'unknown'): void => {
      believedWall = wall;
    };
    const board = createBoardLink({
      wiring,
      deadBoard: farm.deadBoard,
      use: 'drive',
      keeper: keeperOf(farm, wiring, () => believedWall),
      lines: serialLines,
      port,
      timers: realTimers,
      power: createPortPower({
        ports: linuxPorts(stateFolder(farm.farm)),
        timers: realTimers,
        talk: console.talk,
      }),
    });
    letGoOnDefect(board.close, console);
    const clock = realClock(stop);
    console.talk(
      wrapped(
        `${farm.farm} on a real board (${port}). Ctrl-C ends this program: a stock board's relay is then let go, a board with a keeper floods on by itself. Nothing but the pulled plug stops the pump for sure.`,
        console.columns,
      ),
    );
    const until = minutes === null ? 'stopped' : afterMinutes(clock.now().monotonic, minutes);
    return { wiring, board, clock, simulated: false, until, stop, believes };
  };
};
