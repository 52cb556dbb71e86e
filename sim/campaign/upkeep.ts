import {
  hostHealth,
  sameHealth,
  type ControllerState,
  type Event,
  type Standstill,
  type Step,
} from '../../src/controller.ts';
import { carriedCall } from '../../src/delivery/call.ts';
import type { KeptDelivery } from '../../src/delivery/delivery-restart.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import { heardHappening } from '../../src/journal/heard-happening.ts';
import type { HostHealth } from '../../src/ports/host-health.ts';
import { believedNow } from '../../src/time/clock-trust.ts';
import type { Now } from '../../src/time/instant.ts';
import type { Dice } from '../dice.ts';
import type { InjectorName } from '../faults/injectors.ts';
import type { RunRecord, Try } from '../oracle/record.ts';
import { Book, shedDisk } from './book.ts';
import { Exported } from './exported.ts';
import { Herald } from './herald.ts';
import { standingBeside, type Script } from './script.ts';
import type { Moment, Tampering } from './tampering.ts';
import { asked, settingsOf } from './ways-out.ts';

export interface UpkeepAsked {
  readonly farm: Farm;
  readonly script: Script;
  readonly dice: Dice;
  /** The clocks of the host at a moment of its life. */
  readonly clocks: (atMillis: number) => Now;
  readonly hit: (name: InjectorName) => void;
  readonly tampering: Tampering;
  readonly moment: (atMillis: number) => Moment;
}

/** After the last look of a run the disk has so long to take what it has led to. */
export const LAST_WRITES_MILLIS = 60_000;
/** No host looks at itself more often. */
const LOOK_MILLIS = 1000;

/**
 * What the host does beside the pump, in the world of the campaign: it keeps the book on a disk and calls people through
 * channels, and tells the controller how both are. Time passes here without the shed: nothing in it may change what happens
 * there.
 */
export class Upkeep {
  readonly #asked: UpkeepAsked;
  readonly #exported: Exported;
  readonly #shed: ReturnType<typeof shedDisk>;
  readonly #tries: Try[] = [];
  readonly #called = new Map<string, number>();
  readonly #acknowledged: { atMillis: number; lastSeq: number }[] = [];
  #book: Book;
  #herald: Herald;
  #text: string | null = null;
  #carried: KeptDelivery | null = null;
  #told: HostHealth | null = null;
  /** When the host stood still last, by its own clock. */
  #stood: Standstill | null = null;

  constructor(given: UpkeepAsked, bornMillis: number) {
    this.#asked = given;
    this.#shed = shedDisk(given.script, given.dice, given.hit, given.tampering.disk);
    this.#exported = new Exported(this.#shed.disk);
    this.#book = this.#newBook(bornMillis);
    this.#herald = this.#newHerald(bornMillis);
  }

  /** Entries of the controller, with the state that they have led to. */
  write(entries: readonly Entry[], state: ControllerState | null, atMillis: number): void {
    const moment = this.#asked.moment(atMillis);
    const written = this.#asked.tampering.entries?.(entries, moment) ?? entries;
    if (written.length === 0) return;
    this.#exported.entered(written, moment);
    this.#book.enter(written, state);
    this.#acknowledge();
  }

  /** What a step has come to, after all its commands. */
  told({ calls, entries, state }: Step, atMillis: number): void {
    const { tampering, moment } = this.#asked;
    const carried = calls.map(carriedCall);
    for (const call of tampering.calls?.(carried, moment(atMillis)) ?? carried) {
      this.#herald.tell(call, tampering.heraldLateMillis ?? 0);
    }
    if (entries.length > 0) this.write(entries, state, atMillis);
    if (calls.length > 0) this.#take(state);
  }

  /** Lets the host stand with its state up to this moment. */
  stood(state: ControllerState, untilMillis: number): void {
    while (this.#book.nowMillis < untilMillis) this.#next(state, untilMillis);
    if (this.#herald.nowMillis >= untilMillis) return;
    this.#herald.until(untilMillis);
    this.#take(state);
  }

  /** The same, up to the moment at which it has news of itself if that comes first; the host looks once a second. */
  newsBefore(state: ControllerState, untilMillis: number): number {
    const lookMillis = this.#book.nowMillis + LOOK_MILLIS;
    while (this.#book.nowMillis < untilMillis) {
      if (this.#next(state, untilMillis) === 'nothing' || this.#told === null) continue;
      const atMillis = this.#book.nowMillis;
      if (!sameHealth(this.#told, this.#health(atMillis)))
        return Math.min(untilMillis, Math.max(atMillis, lookMillis));
    }
    return untilMillis;
  }

  /** What the host has to tell of itself at this moment. */
  news(atMillis: number): readonly Event[] {
    const health = this.#health(atMillis);
    if (this.#told !== null && sameHealth(this.#told, health)) return [];
    this.#told = health;
    return [{ kind: 'host', health }];
  }

  thawed(atMillis: number): void {
    const { clocks } = this.#asked;
    this.#stood = { from: clocks(this.#book.nowMillis).monotonic, until: clocks(atMillis).monotonic };
    this.#book.thawed(atMillis);
    this.#herald.nowMillis = atMillis;
  }

  /** The power was cut: of what the disk had in hand nobody knows. */
  killed(): void {
    this.#book.cut(this.#asked.dice() < 0.5 ? 'arrived' : 'lost');
    this.#text = this.#book.keptText() ?? this.#text;
  }

  /** Begins anew; gives what the host before has left on the disk. */
  begunAnew(atMillis: number): string {
    this.#told = null;
    this.#stood = null;
    this.#book = this.#newBook(atMillis);
    this.#herald = this.#newHerald(atMillis);
    return this.#text ?? '';
  }

  /** All that came to the disk and to people. */
  record(): Pick<RunRecord, 'rows' | 'tries' | 'acknowledged'> & { readonly text: string } {
    return { ...this.#exported.read(), tries: this.#tries, acknowledged: this.#acknowledged };
  }

  #newBook(atMillis: number): Book {
    return new Book(this.#shed, this.#asked.clocks, atMillis);
  }

  #newHerald(atMillis: number): Herald {
    const { farm, script, dice, clocks, hit, tampering } = this.#asked;
    const world = {
      settings: settingsOf(farm),
      clocks,
      ask: (what: Parameters<typeof asked>[3]) =>
        tampering.answer?.(what, this.#asked.moment(what.atMillis)) ?? asked(script, dice, hit, what),
      tries: this.#tries,
      called: this.#called,
    };
    return new Herald(world, this.#carried, atMillis);
  }

  /** What the herald has heard goes into the book, and what it still has to do onto the disk where that takes it. */
  #take(state: ControllerState): void {
    const atMillis = this.#herald.nowMillis;
    const heard = this.#herald.heard();
    const { script, clocks } = this.#asked;
    if (
      standingBeside(script, 'disk-failing', atMillis) === null &&
      standingBeside(script, 'disk-full', atMillis) === null
    )
      this.#carried = this.#herald.kept();
    if (heard.length === 0) return;
    const { monotonic: at, wall } = believedNow(state.clock, clocks(atMillis));
    this.write(
      heard.map((one): Entry => ({ ...heardHappening(one), at, wall })),
      null,
      atMillis,
    );
  }

  #health(atMillis: number): HostHealth {
    const { monotonic } = this.#asked.clocks(atMillis);
    const { tampering, moment } = this.#asked;
    const seen = { journal: this.#book.health(atMillis), channels: this.#herald.dead() };
    const { journal, channels } = tampering.seen?.(seen, moment(atMillis)) ?? seen;
    return hostHealth(
      {
        journal,
        channels,
        stood: this.#stood,
        starts: { starts: 1, safeMode: null },
        pastUnread: null,
        boardClock: null,
        line: null,
        chip: null,
        memory: null,
        battery: null,
        readings: [],
      },
      monotonic,
    );
  }

  /** Goes on to the next thing that happens to disk or channels, and says whether that may be news. */
  #next(state: ControllerState, untilMillis: number): 'something' | 'nothing' {
    const heraldMillis = this.#herald.nextMillis();
    const nextMillis = Math.min(heraldMillis, untilMillis);
    const atMillis = this.#book.next(state, nextMillis);
    const { trouble } = this.#book.run.queue;
    const journalSays = trouble !== null || this.#told?.journal.kind !== 'well' ? 'something' : 'nothing';
    this.#acknowledge();
    if (atMillis < nextMillis) return journalSays;
    if (heraldMillis > untilMillis) {
      this.#herald.nowMillis = untilMillis;
      return journalSays;
    }
    this.#herald.until(nextMillis);
    this.#take(state);
    return 'something';
  }

  #acknowledge(): void {
    const lastSeq = this.#book.run.queue.durable;
    if (lastSeq > (this.#acknowledged.at(-1)?.lastSeq ?? 0))
      this.#acknowledged.push({ atMillis: this.#book.run.nowMillis, lastSeq });
  }
}
