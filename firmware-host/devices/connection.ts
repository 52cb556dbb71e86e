import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Press, Signals } from '../../src/ports/board.ts';
import type { Sample } from '../../src/ports/sample.ts';
import { secondsBetween } from '../../src/time/instant.ts';
import { ClientTransport } from './client-transport.ts';
import { freshLibrary, type FirmataClient } from './device-library.ts';
import { createFirmataGate } from './firmata-gate.ts';
import { READ_MILLIS } from './fitting.ts';
import { strangerWhy, type BoardIdentity } from './identity.ts';
import type { LineCandidate, OpenLine } from './line.ts';
import { fitParts, type Parts, type Use } from './parts.ts';
import { lentTimers, type Timers } from './timers.ts';
import { misfit } from './wiring-fit.ts';

/** A board that resets when its port opens needs about two seconds until its firmware talks. */
const HANDSHAKE_SECONDS = 8;
/** Three questions without an answer: a line that is open and dead gives no other sign. */
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
  /** Comes once, also when the connection never became ready; the port is free once `closed` holds. */
  readonly gone: (why: string, closed: Promise<void>) => void;
}

/** One life of one line, from opening to its end. Nothing of it is used again. */
export interface Connection {
  readonly pump: (asked: 'on' | 'off') => void;
  readonly show: (signals: Signals) => void;
  readonly droppedBytes: () => number;
  /** Lets go of the relay and of the port; `gone` does not come. */
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
  const gate = createFirmataGate();
  const library = freshLibrary(timers);
  const begunAt = timers.now();
  let over = false;
  let maySpeak = asked.speak === 'first';
  let parts: Parts | null = null;
  let answeredAt = begunAt;
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
  const lost = (why: string): void => {
    if (over) return;
    asked.gone(why, end());
  };

  const line = asked.open(candidate.name, {
    opened: () => {
      transport.emit('open');
      if (maySpeak) ask();
    },
    heard: (bytes) => {
      if (over) return;
      const passed = gate.passed(bytes);
      if (passed.length === 0) return;
      maySpeak ||= gate.speaksFirmata();
      transport.emit('data', passed);
    },
    lost,
  });

  const answered = (): void => {
    answeredAt = timers.now();
  };
  const ask = (): void => {
    io.reportVersion(answered);
    if (io.isReady) return;
    firmwareAskedAt = timers.now();
    io.queryFirmware(answered);
  };
  const tick = (): void => {
    if (parts === null && !io.isReady) {
      if (secondsBetween(begunAt, timers.now()) > HANDSHAKE_SECONDS) lost('nothing there speaks Firmata');
      else if (maySpeak) ask();
      return;
    }
    if (secondsBetween(answeredAt, timers.now()) > SILENCE_SECONDS) {
      lost(`the board has not answered for ${SILENCE_SECONDS} s`);
      return;
    }
    parts?.beat();
    ask();
  };
  timers.setInterval(tick, READ_MILLIS);

  const fit = (identity: BoardIdentity): void => {
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
      parts = fitParts(wanted.wiring, wanted.deadBoard, wanted.use, fitting);
      parts.beat();
      asked.ready(identity, io);
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
    const why =
      strangerWhy(identity, wanted?.wiring.identity, asked.before) ??
      (wanted === null ? null : misfit(io, wanted.wiring));
    if (why === null) fit(identity);
    else lost(why);
  });

  return {
    pump: (pump) => {
      if (!over) parts?.pump?.ask(pump);
    },
    show: (signals) => {
      parts?.show(signals);
    },
    droppedBytes: gate.droppedBytes,
    close: async () => {
      if (over) return;
      parts?.pump?.release();
      await end();
    },
  };
};
