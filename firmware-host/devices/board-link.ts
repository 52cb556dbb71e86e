import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Board, Kept, Link, Press } from '../../src/ports/board.ts';
import type { Sample } from '../../src/ports/sample.ts';
import { afterSeconds, monotonicMillis, type MonotonicMillis } from '../../src/time/instant.ts';
import { inOrder } from './candidate-order.ts';
import { connect, type Connection, type ConnectionAsked } from './connection.ts';
import { hasKeeper, type BoardIdentity } from './identity.ts';
import type { KeeperState } from './keeper/keeper-state.ts';
import type { LogMemory } from './keeper/log-memory.ts';
import { afterEnd, afterFailure, afterListing, isKnownLine, mayOpen, NO_TRIES } from './keeper/patience.ts';
import type { LineCandidate, LineSource } from './line.ts';
import type { PortPower, SilentBoard } from './port-power.ts';
import type { Use } from './stock-driver.ts';
import type { Timers, TimerId } from './timers.ts';

/** Between two rounds over all candidates. */
const ROUND_MILLIS = 2000;
/** A loss lasts at least this long: a host that looks once a second may not miss that its pump was let go. */
const LOST_SECONDS = 2;
/** A port that has not closed by then is tried all the same. */
const CLOSING_MILLIS = 2000;
/** Samples and presses kept for a host that does not take them; the oldest go first. */
const KEPT_MAX = 2000;

export interface LinkCounts {
  /** Lines opened, whether or not a board was behind them. */
  readonly connections: number;
  /** Commands that came while no board was there: never sent later. */
  readonly refusedCommands: number;
  readonly droppedBytes: number;
}

/** A board that is found, driven and read as long as it is there, and looked for when it is not. */
export interface BoardLink extends Board {
  readonly identity: () => { readonly board: BoardIdentity; readonly line: string } | null;
  /** What is known of the board's keeper, as last heard; null as long as no board with one was found. */
  readonly keeperState: () => KeeperState | null;
  readonly counts: () => LinkCounts;
  /** Messages of the line that is open now. */
  readonly messages: Connection['messages'];
  /**
   * Lets go of the pump and of the line, for good. A relay on a stock board rests from then on, whatever that does to
   * the pump; a keeper has the pump at once, and a running flood goes on.
   */
  readonly close: () => Promise<void>;
}

export interface LinkAsked {
  readonly wiring: Wiring;
  readonly deadBoard: Farm['deadBoard'];
  readonly use: Use;
  /** For boards with a keeper: what they must have been flashed for, and the table that they should flood by. */
  readonly keeper?: {
    /** The 72 bytes that the farm file gives; without them no keeper is claimed. */
    readonly setup: Uint8Array;
    readonly table?: () => Uint8Array | null;
  };
  readonly lines: LineSource;
  /** The line that a person named, or `auto`. */
  readonly port: string;
  readonly timers: Timers;
  /** The power of USB ports; left alone unless given. */
  readonly power?: PortPower;
  /** Called when the link changes or something was seen; the host may look at once. */
  readonly changed?: () => void;
}

/**
 * Tries candidates one after another until one is the right board; when it goes, begins again. Every try has a
 * line, a client and parts of its own, so nothing written to one board can reach another.
 */
export const createBoardLink = (asked: LinkAsked): BoardLink => {
  const { timers, lines, port, wiring } = asked;
  let link: Link = { kind: 'down', why: 'the board has not been found yet' };
  let connection: Connection | null = null;
  let driven: { readonly board: BoardIdentity; readonly line: string } | null = null;
  let roundTimer: TimerId | undefined;
  let upTimer: TimerId | undefined;
  /** A loss lasts until then. */
  let upFrom = monotonicMillis(0);
  let samples: Sample[] = [];
  let presses: Press[] = [];
  let connections = 0;
  let refusedCommands = 0;
  let droppedBefore = 0;
  let closed = false;
  let keeper: KeeperState | null = null;
  let keeperLog: LogMemory | null = null;
  let keeps = false;
  let patience = NO_TRIES;
  let upSince: MonotonicMillis | null = null;

  const become = (next: Link): void => {
    const now = timers.now();
    if (next.kind === 'up') upSince = now;
    else if (link.kind === 'up') upFrom = afterSeconds(now, LOST_SECONDS);
    link = next;
    asked.changed?.();
  };
  const goDown = (why: string): void => {
    become({ kind: 'down', why, ...(keeps ? { keeper: 'keeps' } : {}) });
  };
  const remember = (): void => {
    const state = connection?.keeperState() ?? keeper;
    // Whose the pump is nobody hears from now on.
    keeper = state === null ? null : { ...state, owner: 'unknown' };
    keeperLog = connection?.keeperLog() ?? keeperLog;
  };

  /** What a person named, and a board that is known by its USB serial number, may be spoken to. */
  const isKnown = ({ name, serialNumber }: LineCandidate): boolean =>
    name === port ||
    (serialNumber !== null &&
      (serialNumber === wiring.identity || serialNumber === driven?.board.serialNumber));

  /** Where the pump stops with the board, taking its power can start no pump. */
  const silentBoard = (): SilentBoard =>
    driven !== null && !hasKeeper(driven.board) && asked.deadBoard === 'pump-stops' ? 'idle' : 'unknown';

  const lost = (
    candidate: LineCandidate,
    why: string,
    rest: readonly LineCandidate[],
    freed: Promise<void>,
    by: 'line' | 'words',
    who: BoardIdentity | null,
    fitted: 'yes' | 'no',
  ): void => {
    timers.clearTimeout(upTimer);
    const spoke = connection?.droppedBytes() ?? 0;
    droppedBefore += spoke;
    if (who !== null && fitted === 'no') asked.power?.stranger(candidate.name);
    // Of a stock board nothing is taken away by a reset: without its host it does nothing.
    const isKeeper = who === null ? isKnownLine(patience, candidate.name) : hasKeeper(who);
    // What says much and no Firmata does not keep silent. A keeper's floods, and a hold by its button, go with its power.
    if (isKnown(candidate) && (who !== null || spoke === 0) && !isKeeper && !keeps)
      asked.power?.silent(candidate.name, by === 'line' ? 'gone' : 'open', silentBoard());
    remember();
    const wasUp = link.kind === 'up';
    if (by === 'line') patience = afterEnd(patience, candidate.name);
    else if (isKeeper) patience = afterFailure(patience, candidate.name, upSince, timers.now());
    upSince = null;
    connection = null;
    samples = [];
    goDown(`${candidate.name}: ${why}`);
    let goesOn = false;
    const goOn = (): void => {
      if (goesOn || closed) return;
      goesOn = true;
      timers.clearTimeout(roundTimer);
      // A board that was there is looked for from the start, at once.
      if (wasUp) round();
      else tryNext(rest);
    };
    roundTimer = timers.setTimeout(goOn, CLOSING_MILLIS);
    freed.then(goOn, goOn);
  };

  const keeperTies = (line: string): NonNullable<ConnectionAsked['parts']>['keeper'] => ({
    setup: asked.keeper?.setup ?? null,
    table: asked.keeper?.table ?? ((): null => null),
    before: keeperLog,
    claimFrom: upFrom,
    up: (kept: Kept) => {
      keeps = true;
      become({ kind: 'up', kept });
    },
    down: (why, isKept) => {
      if (asked.use === 'look') return;
      keeps = isKept;
      goDown(`${line}: ${why}`);
    },
  });

  const tryNext = (candidates: readonly LineCandidate[]): void => {
    if (closed) return;
    const [candidate, ...rest] = candidates;
    if (candidate === undefined) {
      roundTimer = timers.setTimeout(round, ROUND_MILLIS);
      return;
    }
    if (!mayOpen(patience, candidate.name, timers.now())) {
      tryNext(rest);
      return;
    }
    connections += 1;
    let fitted: 'yes' | 'no' = 'no';
    connection = connect({
      parts: { wiring, deadBoard: asked.deadBoard, use: asked.use, keeper: keeperTies(candidate.name) },
      open: lines.open,
      candidate,
      speak: isKnown(candidate) ? 'first' : 'when-spoken-to',
      before: driven?.board ?? null,
      timers,
      heard: (sample) => {
        samples.push(sample);
        if (samples.length > KEPT_MAX) samples = samples.slice(-KEPT_MAX);
      },
      pressed: (press) => {
        presses = [...presses, press].slice(-KEPT_MAX);
        asked.changed?.();
      },
      ready: (board) => {
        fitted = 'yes';
        asked.power?.heard(candidate.name);
        driven = { board, line: candidate.name };
        // The pump of a keeper is not ours before it has been claimed.
        if (asked.use === 'drive' && hasKeeper(board)) return;
        const isUp = (): void => {
          become({ kind: 'up' });
        };
        const waits = upFrom - timers.now();
        if (waits > 0) upTimer = timers.setTimeout(isUp, waits);
        else isUp();
      },
      gone: (why, freed, by, who) => {
        lost(candidate, why, rest, freed, by, who, fitted);
      },
    });
  };

  const round = (): void => {
    lines.candidates().then(
      (found) => {
        if (closed) return;
        const names = found.map(({ name }) => name);
        patience = afterListing(patience, names);
        if (found.length === 0 && port === 'auto') goDown('no serial port is there');
        tryNext(inOrder(found, port, isKnown));
      },
      (error: unknown) => {
        if (closed) return;
        goDown(`serial ports cannot be listed: ${String(error)}`);
        tryNext(inOrder([], port, isKnown));
      },
    );
  };

  round();
  return {
    command: (command) => {
      if (connection === null || link.kind === 'down') refusedCommands += 1;
      else connection.command(command);
    },
    samples: () => {
      const seen = samples;
      samples = [];
      return seen;
    },
    link: () => link,
    presses: () => {
      const seen = presses;
      presses = [];
      return seen;
    },
    show: (signals) => {
      connection?.show(signals);
    },
    alive: (time) => {
      if (link.kind === 'up') connection?.alive(time);
    },
    keeperState: () => connection?.keeperState() ?? keeper,
    identity: () => (link.kind === 'up' ? driven : null),
    counts: () => ({
      connections,
      refusedCommands,
      droppedBytes: droppedBefore + (connection?.droppedBytes() ?? 0),
    }),
    messages: () => connection?.messages() ?? { whole: 0, spoilt: 0 },
    close: async () => {
      closed = true;
      timers.clearTimeout(roundTimer);
      timers.clearTimeout(upTimer);
      remember();
      await Promise.all([connection?.close(), asked.power?.close()]);
      connection = null;
      link = { kind: 'down', why: 'closed' };
    },
  };
};
