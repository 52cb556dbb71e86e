import { keptState, type ControllerState } from '../../src/controller.ts';
import type { Batch } from '../../src/journal/disk.ts';
import type { Entry } from '../../src/journal/entry.ts';
import { health, LIGHT_MILLIS, openingQueue } from '../../src/journal/queue.ts';
import { waiting } from '../../src/journal/waiting.ts';
import type { JournalHealth } from '../../src/ports/host-health.ts';
import type { Now } from '../../src/time/instant.ts';
import type { Dice } from '../dice.ts';
import type { BesideFaultKind } from '../faults/injectors.ts';
import { QueueRun } from './queue-run.ts';
import { meets, standingBeside, type Script } from './script.ts';
import type { Tampering } from './tampering.ts';
import { VirtualDisk, type Mishap } from './virtual-disk.ts';

/** A healthy card takes about so long for a write that is on it for good, and one that is worn out so long. */
const WRITE_MILLIS = 20;
const SLOW_MILLIS = 5000;
/** A write that fails has arrived all the same in so many cases. */
const ARRIVES_SHARE = 0.25;
/** The host gives its state to the queue once a second. */
const KEEP_MILLIS = 1000;
/** From a state that is given to the next one after its write: nothing else happens in a quiet host on a healthy disk. */
const CYCLE_MILLIS = LIGHT_MILLIS + KEEP_MILLIS;
const TEXTS_MOST = 64;
const DISK_FAULTS: readonly BesideFaultKind[] = ['disk-slow', 'disk-full', 'disk-failing'];

/** The disk of the shed's host, which outlives it. */
export interface ShedDisk {
  readonly disk: VirtualDisk;
  readonly callMillis: (atMillis: number) => number;
  /** Whether nothing is wrong with it all through this stretch. */
  readonly isWell: (fromMillis: number, untilMillis: number) => boolean;
  /** Its own moment: whoever calls it says when. */
  readonly at: { millis: number };
}

export const shedDisk = (
  script: Script,
  dice: Dice,
  hit: (kind: BesideFaultKind) => void,
  lies: Tampering['disk'] = (_, says) => says,
): ShedDisk => {
  const at = { millis: 0 };
  const faults = script.beside.filter(({ kind }) => DISK_FAULTS.includes(kind));
  const mishap = ({ grave }: Batch): Mishap => {
    const failing = standingBeside(script, 'disk-failing', at.millis);
    if (failing !== null) {
      hit('disk-failing');
      return failing.medium === 'error' && dice() < ARRIVES_SHARE ? 'fails-behind' : 'fails-before';
    }
    if (grave || standingBeside(script, 'disk-full', at.millis) === null) return 'none';
    hit('disk-full');
    return 'full';
  };
  const disk = new VirtualDisk(
    (_, batch) => lies(batch, mishap(batch)),
    () => standingBeside(script, 'disk-failing', at.millis)?.medium === 'read-only',
  );
  return {
    disk,
    at,
    callMillis: (atMillis) => {
      if (standingBeside(script, 'disk-slow', atMillis) === null) return WRITE_MILLIS;
      hit('disk-slow');
      return SLOW_MILLIS;
    },
    isWell: (fromMillis, untilMillis) =>
      faults.length === 0 || !faults.some((fault) => meets(fault, { fromMillis, untilMillis })),
  };
};

interface Given {
  readonly state: ControllerState;
  readonly atMillis: number;
}

/** What one host writes: its entries through the queue, and with them the state that it would go on from. */
export class Book {
  readonly run: QueueRun;
  nowMillis: number;
  readonly #disk: ShedDisk;
  readonly #clocks: (atMillis: number) => Now;
  /** The states that were given, by the word that stands for each in the queue: to make a text of every one takes time. */
  #given: Map<string, Given>;
  #keptMillis: number;
  /** The state at a write that is slept over. */
  #atWake: ControllerState | null = null;

  constructor(disk: ShedDisk, clocks: (atMillis: number) => Now, bornMillis: number) {
    this.#disk = disk;
    this.#clocks = clocks;
    this.#given = new Map();
    this.#keptMillis = bornMillis;
    this.nowMillis = bornMillis;
    disk.at.millis = bornMillis;
    this.run = new QueueRun(
      disk.disk,
      {
        callMillis: disk.callMillis,
        clocks: (atMillis) => {
          disk.at.millis = atMillis;
          return clocks(atMillis);
        },
      },
      openingQueue(clocks(bornMillis).monotonic),
      bornMillis,
    );
  }

  health(atMillis: number): JournalHealth {
    return health(this.run.queue, this.#clocks(atMillis).monotonic);
  }

  /** The state that an entry led to goes with it, in one piece. */
  enter(entries: readonly Entry[], state: ControllerState | null): void {
    this.#catchUp();
    if (state !== null) this.#keep(state, this.nowMillis);
    this.run.append(...entries.map(waiting));
  }

  /** Goes on with this state to the next thing that happens, at most to this moment; how far it came. */
  next(state: ControllerState, untilMillis: number): number {
    if (this.#sleeps(state, untilMillis)) return untilMillis;
    this.#catchUp();
    this.#next(state, untilMillis);
    this.nowMillis = this.run.nowMillis;
    return this.nowMillis;
  }

  /** Stood still until now, with its host. */
  thawed(atMillis: number): void {
    this.#catchUp();
    this.run.nowMillis = atMillis;
    this.nowMillis = atMillis;
    this.#keptMillis = atMillis;
  }

  cut(arrived: 'arrived' | 'lost'): void {
    this.#catchUp();
    this.run.cut(arrived);
  }

  /** What the host that comes after this one finds; null where none of its states ever came to the disk. */
  keptText(): string | null {
    const given = this.#given.get(this.#disk.disk.keptState ?? '');
    return given === undefined ? null : JSON.stringify(keptState(given.state, this.#clocks(given.atMillis)));
  }

  #next(state: ControllerState, untilMillis: number): void {
    const { run } = this;
    const nextMillis = run.nextMillis();
    const isGiven = run.queue.keptState !== null;
    const target = Math.min(nextMillis, untilMillis, isGiven ? Infinity : this.#keptMillis + KEEP_MILLIS);
    const beats = Math.floor((target - this.#keptMillis) / KEEP_MILLIS);
    // A state that is given and not yet taken is given anew when it is about to be.
    if (beats > 0 && (!isGiven || target === nextMillis)) {
      // Nothing is due before.
      run.nowMillis = this.#keptMillis + beats * KEEP_MILLIS;
      this.#keep(state, run.nowMillis);
    }
    run.until(Math.max(target, run.nowMillis));
  }

  /**
   * A quiet host on a healthy disk writes nothing but its state, every 11 s: of all those writes only the last matters, and
   * the queue is left where it is until something else happens.
   */
  #sleeps(state: ControllerState, untilMillis: number): boolean {
    const { queue } = this.run;
    const { phase, entries, lightSince, keptState, trouble, dropped } = queue;
    if (phase.kind !== 'idle' || lightSince === null || keptState === null) return false;
    if (entries.length > 0 || trouble !== null || dropped !== null) return false;
    if (!this.#disk.isWell(this.run.nowMillis, untilMillis + KEEP_MILLIS)) return false;
    const wakeMillis = this.run.nextMillis();
    this.nowMillis = untilMillis;
    if (untilMillis < wakeMillis) return true;
    this.#atWake ??= state;
    const cycles = Math.floor((untilMillis - wakeMillis - KEEP_MILLIS) / CYCLE_MILLIS) + 1;
    if (cycles <= 0) return true;
    const wroteMillis = wakeMillis + (cycles - 1) * CYCLE_MILLIS;
    const word = String(wroteMillis);
    this.#given.set(word, { state: cycles > 1 ? state : this.#atWake, atMillis: wroteMillis });
    this.#disk.disk.keptState = word;
    this.#atWake = null;
    this.#keptMillis = wroteMillis + KEEP_MILLIS;
    this.run.slept(this.#keptMillis, cycles * CYCLE_MILLIS);
    if (this.#given.size > TEXTS_MOST) this.#forget();
    return true;
  }

  /** What was slept over is done after all, since something else comes. */
  #catchUp(): void {
    const state = this.#atWake;
    this.#atWake = null;
    while (state !== null && this.run.nowMillis < this.nowMillis) this.#next(state, this.nowMillis);
    this.run.until(this.nowMillis);
  }

  #keep(state: ControllerState, atMillis: number): void {
    const word = String(atMillis);
    this.#given.set(word, { state, atMillis });
    this.#keptMillis = atMillis;
    this.run.hear({ kind: 'keep', stateJson: word });
    if (this.#given.size > TEXTS_MOST) this.#forget();
  }

  #forget(): void {
    const { keptState: waits, doubtful, phase } = this.run.queue;
    const taken = phase.kind === 'writing' ? phase.taken.keptState : null;
    const words = [waits, doubtful?.keptState, taken, this.#disk.disk.keptState];
    this.#given = new Map(
      words.flatMap((word) => {
        const given = typeof word === 'string' ? this.#given.get(word) : undefined;
        return typeof word !== 'string' || given === undefined ? [] : [[word, given] as const];
      }),
    );
  }
}
