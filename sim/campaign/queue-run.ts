import {
  isEmpty,
  openQueue,
  turn,
  wakeAt,
  type QueueEffect,
  type QueueInput,
} from '../../src/journal/queue.ts';
import type { Queue, Waiting } from '../../src/journal/queue-state.ts';
import { monotonicMillis, type Now } from '../../src/time/instant.ts';
import { BrokenAssertion } from '../../src/units/assertion.ts';
import type { VirtualDisk } from './virtual-disk.ts';

const TURNS_MOST = 100_000;
const HOUR = 3_600_000;

/** How long the disk takes for a call that begins now, and the clocks of the host at a moment. */
export interface QueueWorld {
  readonly callMillis: (atMillis: number) => number;
  readonly clocks: (atMillis: number) => Now;
}

interface Call {
  readonly atMillis: number;
  readonly effect: QueueEffect;
}

/** The queue before a virtual disk, under a clock that only this turns on. */
export class QueueRun {
  queue: Queue;
  nowMillis: number;
  readonly disk: VirtualDisk;
  readonly #world: QueueWorld;
  #call: Call | null = null;
  #wakeMillis = Infinity;

  constructor(disk: VirtualDisk, world: QueueWorld, queue: Queue = openQueue(0), nowMillis = 0) {
    this.disk = disk;
    this.#world = world;
    this.queue = queue;
    this.nowMillis = nowMillis;
    // A queue that still opens its file has asked for that already.
    if (queue.phase.kind === 'reopening') this.#ask({ kind: 'reopen', lastSeq: queue.durable });
  }

  hear(input: QueueInput): void {
    const next = turn(this.queue, input, this.#world.clocks(this.nowMillis));
    this.queue = next.queue;
    if (next.effect !== null) this.#ask(next.effect);
    this.#wakesAgain();
  }

  append(...items: readonly Waiting[]): void {
    this.hear({ kind: 'append', items });
  }

  /** The next moment at which something happens by itself. */
  nextMillis(): number {
    return Math.max(this.nowMillis, Math.min(this.#call?.atMillis ?? Infinity, this.#wakeMillis));
  }

  /** Lets time pass, with all that becomes due in it. */
  until(millis: number): void {
    for (let turns = 0; this.nextMillis() <= millis; turns += 1) {
      if (turns > TURNS_MOST) throw new BrokenAssertion('the queue does not come to rest');
      this.nowMillis = this.nextMillis();
      const call = this.#call;
      if (call !== null && call.atMillis <= this.nowMillis) {
        this.#call = null;
        this.hear(this.#answer(call.effect));
      } else this.hear({ kind: 'wake' });
    }
    this.nowMillis = Math.max(this.nowMillis, millis);
  }

  /** Ends it, and gives it an hour. */
  end(): boolean {
    this.hear({ kind: 'end' });
    this.until(this.nowMillis + HOUR);
    return isEmpty(this.queue);
  }

  /** The power goes: what the disk had in hand has arrived whole, or not at all. */
  cut(arrived: 'arrived' | 'lost'): void {
    const effect = this.#call?.effect;
    this.#call = null;
    if (effect?.kind === 'write' && arrived === 'arrived' && this.disk.isOpen) this.disk.write(effect.batch);
  }

  /** So much time has passed in which it did what it does in any such time; what waits now has come at this moment. */
  slept(atMillis: number, millis: number): void {
    const { lightSince } = this.queue;
    this.nowMillis = atMillis;
    if (lightSince !== null) this.queue = { ...this.queue, lightSince: monotonicMillis(lightSince + millis) };
    this.#wakeMillis += millis;
  }

  #wakesAgain(): void {
    const wake = wakeAt(this.queue);
    this.#wakeMillis =
      wake === null ? Infinity : this.nowMillis + wake - this.#world.clocks(this.nowMillis).monotonic;
  }

  #ask(effect: QueueEffect): void {
    if (this.#call !== null) throw new BrokenAssertion('two calls of the disk at once');
    this.#call = { atMillis: this.nowMillis + this.#world.callMillis(this.nowMillis), effect };
  }

  #answer(effect: QueueEffect): QueueInput {
    return effect.kind === 'write'
      ? { kind: 'wrote', wrote: this.disk.write(effect.batch) }
      : { kind: 'reopened', reopened: this.disk.reopen() };
  }
}
