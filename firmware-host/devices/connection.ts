import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Press } from '../../src/ports/board.ts';
import type { Sample } from '../../src/ports/sample.ts';
import { secondsBetween } from '../../src/time/instant.ts';
import type { BoardDriver } from './board-driver.ts';
import { ClientTransport } from './client-transport.ts';
import { freshLibrary, type FirmataClient } from './device-library.ts';
import { createFirmataGate } from './firmata-gate.ts';
import { READ_MILLIS } from './fitting.ts';
import { hasKeeper, strangerWhy, type BoardIdentity } from './identity.ts';
import { openKeeperLink, type KeeperAsked, type KeeperLink } from './keeper/keeper-link.ts';
import type { KeeperState } from './keeper/keeper-state.ts';
import type { LogMemory } from './keeper/log-memory.ts';
import type { LineCandidate, LineEvents, OpenLine } from './line.ts';
import { fitParts, NO_PARTS, type Parts } from './parts.ts';
import { stockDriver, type Use } from './stock-driver.ts';
import { lentTimers, type Timers } from './timers.ts';
import { misfit } from './wiring-fit.ts';

/** A board that resets when its port opens needs about two seconds until its firmware talks. */
const HANDSHAKE_SECONDS = 8;
/**
 * Questions, a second apart, without an answer: a line that is open and dead gives no other sign. They are counted
 * and not timed, since a host that was stopped for a while has asked nothing meanwhile.
 */
const SILENCE_SECONDS = 3;
/** The median of three takes one spoilt sample out. */
const SAMPLES_A_READING = 3;
/** An answer is there well within this; who says later who it is was not asked. */
const ANSWER_SECONDS = 1;
/** Longer than any run: waiting is ended here, not by the libraries. */
const NEVER_MILLIS = 1e9;

export interface ConnectionAsked {
  /** Null to look at the board alone, its pins untouched. */
  readonly parts: {
    readonly wiring: Wiring;
    readonly deadBoard: Farm['deadBoard'];
    readonly use: Use;
    /** Of a board with a keeper. */
    readonly keeper: Pick<KeeperAsked, 'setup' | 'table' | 'before' | 'claimFrom' | 'up' | 'down'>;
  } | null;
  readonly open: OpenLine;
  readonly candidate: LineCandidate;
  /**
   * Whether anything may be written before the other end has spoken Firmata by itself. To a device that nobody
   * named, nothing is.
   */
  readonly speak: 'first' | 'when-spoken-to';
  /** The board that this host drove before; no other one is driven after it. */
  readonly before: BoardIdentity | null;
  readonly timers: Timers;
  readonly heard: (sample: Sample) => void;
  readonly pressed: (press: Press) => void;
  readonly ready: (identity: BoardIdentity, board: FirmataClient) => void;
  /**
   * Comes once, also when the connection never became ready; the port is free once `closed` holds. `by` tells whether
   * the line itself ended, or what was heard on it, and `who` spoke there, where that is known.
   */
  readonly gone: (
    why: string,
    closed: Promise<void>,
    by: 'line' | 'words',
    who: BoardIdentity | null,
  ) => void;
}

/** One life of one line, from opening to its end. Nothing of it is used again. */
export interface Connection extends Pick<BoardDriver, 'command' | 'show' | 'alive'> {
  readonly droppedBytes: () => number;
  /** Messages that came whole, and spoilt. */
  readonly messages: () => { readonly whole: number; readonly spoilt: number };
  /** Null on a board without a keeper. */
  readonly keeperState: () => KeeperState | null;
  readonly keeperLog: () => LogMemory | null;
  /** Lets go of the pump and of the port; `gone` does not come. */
  readonly close: () => Promise<void>;
}

const identityOf = (io: FirmataClient, { serialNumber }: LineCandidate): BoardIdentity => ({
  firmwareName: io.firmware.name ?? 'unnamed',
  firmwareVersion: `${io.firmware.version?.major ?? 0}.${io.firmware.version?.minor ?? 0}`,
  protocolVersion: `${io.version.major ?? 0}.${io.version.minor ?? 0}`,
  serialNumber,
});

/** Opens a line, finds out who is there, and fits the parts when it is the right board. */
export const connect = (asked: ConnectionAsked): Connection => {
  const { candidate, parts: wanted } = asked;
  // The libraries end none of theirs: each would run on, and hold all of a connection that has gone.
  const timers = lentTimers(asked.timers);
  const gate = createFirmataGate((frame) => {
    if (!over) keeper?.heard(frame);
  });
  const library = freshLibrary(timers);
  const begunAt = timers.now();
  let over = false;
  const isOver = (): boolean => over;
  let maySpeak = asked.speak === 'first';
  let parts: Parts | null = null;
  let driver: BoardDriver | null = null;
  let keeper: KeeperLink | null = null;
  let silentTicks = 0;
  let who: BoardIdentity | null = null;
  let firmwareAskedAt = begunAt;

  const transport = new ClientTransport((bytes) => {
    if (!over && maySpeak) line.write(bytes);
  });
  const io = new library.Firmata(transport, {
    reportVersionTimeout: NEVER_MILLIS,
    samplingInterval: Math.floor(READ_MILLIS / SAMPLES_A_READING),
  });

  /** From here on nothing of this connection is written or heard. */
  const end = (): Promise<void> => {
    over = true;
    timers.end();
    io.removeAllListeners();
    transport.removeAllListeners();
    return line.close();
  };
  const lost = (why: string, by: 'line' | 'words' = 'words'): void => {
    if (over) return;
    asked.gone(why, end(), by, who);
  };

  const events: LineEvents = {
    opened: () => {
      transport.emit('open');
      if (maySpeak) ask();
    },
    heard: (bytes) => {
      if (over) return;
      const passed = gate.passed(bytes);
      // A frame of the keeper may have ended all of this.
      if (isOver() || passed.length === 0) return;
      maySpeak ||= gate.speaksFirmata();
      transport.emit('data', passed);
    },
    lost: (why) => {
      lost(why, 'line');
    },
  };
  // A flood that runs must not be cut by a host that comes back.
  const line = asked.open(candidate.name, events, asked.speak === 'first' ? 'spared' : 'may-reset');

  const answered = (): void => {
    silentTicks = 0;
  };
  const ask = (): void => {
    io.reportVersion(answered);
    if (io.isReady) return;
    firmwareAskedAt = timers.now();
    io.queryFirmware(answered);
  };
  const beat = (): void => {
    driver?.beat();
    parts?.beat();
  };
  const tick = (): void => {
    if (parts === null && !io.isReady) {
      if (secondsBetween(begunAt, timers.now()) > HANDSHAKE_SECONDS) lost('nothing there speaks Firmata');
      else if (maySpeak) ask();
      return;
    }
    silentTicks += 1;
    if (silentTicks > SILENCE_SECONDS) {
      lost(`the board has not answered for ${SILENCE_SECONDS} s`);
      return;
    }
    beat();
    ask();
  };
  timers.setInterval(tick, READ_MILLIS);

  const fit = (identity: BoardIdentity, misfitWhy: string | null): void => {
    if (wanted === null) {
      asked.ready(identity, io);
      return;
    }
    const board = new library.Board({ io, repl: false, sigint: false, debug: false, timeout: NEVER_MILLIS });
    board.on('error', (error) => {
      lost(`the device library failed: ${String(error)}`);
    });
    board.once('ready', () => {
      if (over) return;
      answered();
      const { heard: take, pressed } = asked;
      const whileOpen =
        <Value>(tell: (value: Value) => void) =>
        (value: Value): void => {
          if (!over) tell(value);
        };
      const fitting = { library, io, board, timers, take: whileOpen(take), pressed: whileOpen(pressed) };
      if (!hasKeeper(identity)) driver = stockDriver(wanted.wiring, wanted.deadBoard, wanted.use, fitting);
      parts = misfitWhy === null ? fitParts(wanted.wiring, fitting) : NO_PARTS;
      beat();
      asked.ready(identity, io);
      if (hasKeeper(identity)) {
        const { use, keeper: ties } = wanted;
        const write = (bytes: Uint8Array): void => {
          if (!over) line.write(bytes);
        };
        keeper = openKeeperLink({ ...ties, use, timers, misfitWhy, write, lost, pressed: fitting.pressed });
        driver = keeper;
      }
    });
  };

  io.once('ready', () => {
    answered();
    // A board tells its firmware when it starts. After a reset of its own every pin is something else than the
    // parts here think: contacts are outputs and read low, and analog pins are told no more.
    io.on('queryfirmware', () => {
      if (parts !== null && secondsBetween(firmwareAskedAt, timers.now()) > ANSWER_SECONDS)
        lost('the board has reset itself');
    });
    const identity = identityOf(io, candidate);
    who = identity;
    const stranger = strangerWhy(identity, wanted?.wiring.identity, asked.before);
    const outputs = hasKeeper(identity) ? 'of-the-keeper' : 'of-the-host';
    const misfitWhy = wanted === null ? null : misfit(io, wanted.wiring, outputs);
    if (stranger !== null) lost(stranger);
    // A keeper that was flashed for something else says so better, and keeps its line: to open it again resets it.
    else if (misfitWhy === null || hasKeeper(identity)) fit(identity, misfitWhy);
    else lost(misfitWhy);
  });

  return {
    command: (command) => {
      if (!over) driver?.command(command);
    },
    show: (signals) => {
      driver?.show(signals);
    },
    alive: (time) => {
      if (!over) driver?.alive(time);
    },
    droppedBytes: gate.droppedBytes,
    messages: () => ({ whole: gate.passedMessages(), spoilt: gate.spoiltMessages() }),
    keeperState: () => keeper?.state() ?? null,
    keeperLog: () => keeper?.memory() ?? null,
    close: async () => {
      if (over) return;
      driver?.letGo();
      await end();
    },
  };
};
