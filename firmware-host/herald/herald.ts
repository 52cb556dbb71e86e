import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { monotonicMillis } from '../../src/time/instant.ts';
import { boundedLines } from '../devices/bounded-line.ts';
import { nearLines } from '../devices/far-line.ts';
import { modemLines } from '../devices/serial-lines.ts';
import type { Call } from '../../src/delivery/call.ts';
import { clockAtZero, heraldJob, type FromHerald, type HeraldOpening, type ToHerald } from './herald-job.ts';
import type { HeraldHeard } from '../../src/delivery/heard.ts';
import type { DeadChannel } from '../../src/ports/host-health.ts';

export interface HeraldAsked extends Omit<HeraldOpening, 'clockAtZero'> {
  /** What is no message of a channel, for the terminal. */
  readonly talk: (text: string) => void;
}

export interface RunningHerald {
  /** Returns at once, whatever the channels do. */
  readonly tell: (call: Call) => void;
  /** The newest sentence of the host: for whoever asks by "?", and for the status at the broker. */
  readonly says: (sentence: string) => void;
  /** Whether the wall clock is believed from now on; by an unknown one it is night, and everybody is on duty. */
  readonly clock: (known: 'known' | 'unknown') => void;
  /** Since the last call, oldest first. */
  readonly heard: () => readonly HeraldHeard[];
  readonly dead: () => readonly DeadChannel[];
  /**
   * Whether it has shown since the last call that it still turns. While its thread has ended and waits to be begun anew it
   * counts as turning: that is told as a dead channel, and a new start of the host, which floods, would mend nothing.
   */
  readonly turned: () => boolean;
  /** What could not be delivered is kept for the next start. */
  readonly close: () => Promise<void>;
}

/** Built beside this file; sources that are run as they are have none, and work in this thread. */
const WORKER = join(import.meta.dirname, 'herald.mjs');

/** What the controller has not taken yet; more than this nobody reads, and the oldest go. */
const HEARD_MAX = 500;
/** A channel that does not let go in time is left to the end of the process. */
const CLOSE_MILLIS = 4000;
/** A card that is full of texts, some 255 of at most 160 letters, is told twice over in this. */
const MODEM_BYTES_A_MINUTE_MAX = 262_144;
/** After a defect in it the thread is begun anew, not faster than this. */
const RESTART_MILLIS = 10_000;
/** Little room for a thread that has little to do: it holds 20 MB with all four channels, and a defect must not take the host's. */
const THREAD_LIMITS = { maxOldGenerationSizeMb: 64, maxYoungGenerationSizeMb: 4 };
/** An avalanche that a thread that has died would find at its start is cut to the newest. */
const UNTOLD_MAX = 64;

/**
 * The herald in a thread of its own, where neither a hung modem nor a slow handshake can delay the pump. A thread that
 * dies is begun anew, and told so as a dead channel meanwhile.
 */
export const createHerald = (asked: HeraldAsked, file: string = WORKER): RunningHerald => {
  const { talk, ...rest } = asked;
  const opening: HeraldOpening = { ...rest, clockAtZero: clockAtZero() };
  const heard: HeraldHeard[] = [];
  const untold: ToHerald[] = [];
  let dead: readonly DeadChannel[] = [];
  let clock = opening.clock;
  let hasTurned = true;
  let send: ((message: ToHerald) => void) | null = null;
  let closing = false;
  let closed = (): void => undefined;
  let thread: Worker | null = null;
  let again: NodeJS.Timeout | undefined;

  const ports = nearLines(boundedLines(modemLines, MODEM_BYTES_A_MINUTE_MAX), (said) => {
    send?.({ kind: 'line', said });
  });
  const take = (message: FromHerald): void => {
    switch (message.kind) {
      case 'heard':
        heard.push(message.heard);
        if (heard.length > HEARD_MAX) heard.shift();
        return;
      case 'dead':
        dead = message.dead;
        return;
      case 'alive':
        hasTurned = true;
        return;
      case 'talk':
        talk(message.text);
        return;
      case 'line':
        ports.asked(message.asked);
        return;
      case 'closed':
        closed();
    }
  };
  const startThread = (): void => {
    const worker = new Worker(file, {
      workerData: { ...opening, clock } satisfies HeraldOpening,
      resourceLimits: THREAD_LIMITS,
    });
    thread = worker;
    worker.on('message', take);
    let why = 'it ended';
    worker.on('error', (error) => {
      why = error.message;
    });
    worker.on('exit', () => {
      thread = null;
      send = null;
      void ports.closeAll();
      if (closing) {
        closed();
        return;
      }
      talk(`The thread that calls people has died (${why}); it is begun anew.`);
      dead = [{ name: 'herald', why, since: monotonicMillis(performance.now()) }];
      again = setTimeout(startThread, RESTART_MILLIS);
      again.unref();
    });
    send = (message) => {
      worker.postMessage(message);
    };
    if (dead.some(({ name }) => name === 'herald')) dead = [];
    for (const message of untold.splice(0)) send(message);
  };
  const post = (message: ToHerald): void => {
    if (send !== null) {
      send(message);
      return;
    }
    untold.push(message);
    if (untold.length > UNTOLD_MAX) untold.shift();
  };

  if (existsSync(file)) startThread();
  else {
    const job = heraldJob(opening, take);
    send = job.take;
  }

  return {
    tell: (call) => {
      post({ kind: 'tell', call });
    },
    says: (sentence) => {
      post({ kind: 'says', sentence });
    },
    clock: (known) => {
      if (known === clock) return;
      clock = known;
      post({ kind: 'clock', known });
    },
    heard: () => heard.splice(0),
    dead: () => dead,
    turned: () => {
      const since = hasTurned;
      hasTurned = false;
      return since || send === null;
    },
    close: async () => {
      closing = true;
      clearTimeout(again);
      const ended = new Promise<void>((done) => {
        closed = done;
        setTimeout(done, CLOSE_MILLIS).unref();
      });
      if (send === null) return;
      send({ kind: 'close' });
      await ended;
      await thread?.terminate();
    },
  };
};
