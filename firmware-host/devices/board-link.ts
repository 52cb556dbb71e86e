import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Board, Link, Press } from '../../src/ports/board.ts';
import type { Sample } from '../../src/ports/sample.ts';
import { connect, type Connection } from './connection.ts';
import type { BoardIdentity } from './identity.ts';
import type { LineCandidate, LineSource } from './line.ts';
import type { Use } from './parts.ts';
import type { Timers, TimerId } from './timers.ts';

/** Between two rounds over all candidates. */
const ROUND_MILLIS = 2000;
/** A loss lasts at least this long: a host that looks once a second may not miss that its pump was let go. */
const LOST_MILLIS = 2000;
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
  readonly counts: () => LinkCounts;
  /** Lets go of the relay and of the line, for good. */
  readonly close: () => Promise<void>;
}

export interface LinkAsked {
  readonly wiring: Wiring;
  readonly deadBoard: Farm['deadBoard'];
  readonly use: Use;
  readonly lines: LineSource;
  /** The line that a person named, or `auto`. */
  readonly port: string;
  readonly timers: Timers;
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
  let offTimer: TimerId | undefined;
  let roundTimer: TimerId | undefined;
  let upTimer: TimerId | undefined;
  let lostAt = -Infinity;
  let samples: Sample[] = [];
  let presses: Press[] = [];
  let connections = 0;
  let refusedCommands = 0;
  let droppedBefore = 0;
  let closed = false;

  const become = (next: Link): void => {
    link = next;
    asked.changed?.();
  };

  /** What a person named, and a board that is known by its USB serial number, may be spoken to. */
  const isKnown = ({ name, serialNumber }: LineCandidate): boolean =>
    name === port ||
    (serialNumber !== null &&
      (serialNumber === wiring.identity || serialNumber === driven?.board.serialNumber));

  const lost = (why: string, rest: readonly LineCandidate[], freed: Promise<void>): void => {
    timers.clearTimeout(offTimer);
    timers.clearTimeout(upTimer);
    droppedBefore += connection?.droppedBytes() ?? 0;
    connection = null;
    samples = [];
    const wasUp = link.kind === 'up';
    if (wasUp) lostAt = timers.now();
    become({ kind: 'down', why });
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

  const tryNext = (candidates: readonly LineCandidate[]): void => {
    if (closed) return;
    const [candidate, ...rest] = candidates;
    if (candidate === undefined) {
      roundTimer = timers.setTimeout(round, ROUND_MILLIS);
      return;
    }
    connections += 1;
    connection = connect({
      parts: { wiring, deadBoard: asked.deadBoard, use: asked.use },
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
        driven = { board, line: candidate.name };
        const isUp = (): void => {
          become({ kind: 'up' });
        };
        const waits = lostAt + LOST_MILLIS - timers.now();
        if (waits > 0) upTimer = timers.setTimeout(isUp, waits);
        else isUp();
      },
      gone: (why, freed) => {
        lost(`${candidate.name}: ${why}`, rest, freed);
      },
    });
  };

  const inOrder = (found: readonly LineCandidate[]): readonly LineCandidate[] => {
    const named = found.some(({ name }) => name === port)
      ? found
      : port === 'auto' || port === 'demo'
        ? found
        : [{ name: port, serialNumber: null, says: 'named by a person' }, ...found];
    return named.toSorted((a, b) => Number(isKnown(b)) - Number(isKnown(a)));
  };

  const round = (): void => {
    lines.candidates().then(
      (found) => {
        if (closed) return;
        if (found.length === 0 && port === 'auto') become({ kind: 'down', why: 'no serial port is there' });
        tryNext(inOrder(found));
      },
      (error: unknown) => {
        if (closed) return;
        become({ kind: 'down', why: `serial ports cannot be listed: ${String(error)}` });
        tryNext(inOrder([]));
      },
    );
  };

  round();
  return {
    command: (command) => {
      timers.clearTimeout(offTimer);
      if (connection === null || link.kind === 'down') {
        refusedCommands += 1;
        return;
      }
      const own = connection;
      if (command.kind === 'pump-off') {
        own.pump('off');
        return;
      }
      own.pump('on');
      // Stock firmware holds no limit of its own; this one holds while the host lives.
      offTimer = timers.setTimeout(() => {
        own.pump('off');
      }, command.longest * 1000);
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
    identity: () => (link.kind === 'up' ? driven : null),
    counts: () => ({
      connections,
      refusedCommands,
      droppedBytes: droppedBefore + (connection?.droppedBytes() ?? 0),
    }),
    close: async () => {
      closed = true;
      timers.clearTimeout(offTimer);
      timers.clearTimeout(roundTimer);
      timers.clearTimeout(upTimer);
      await connection?.close();
      connection = null;
      link = { kind: 'down', why: 'closed' };
    },
  };
};
