import type { KeeperPart } from '../../src/farm/table-bytes.ts';
import type { BoardCommand, Kept, KeptRun } from '../../src/ports/board.ts';
import { monotonicMillis, type MonotonicMillis } from '../../src/time/instant.ts';

/**
 * A stand-in for what a board that keeps the plants does by itself: the rules of docs/board-protocol.md that a host can feel.
 * It has no tank-low rule, none for leak and overflow, and does not take its pump from a host that owns it and never floods.
 */

const SECOND = 1000;
const MINUTE = 60 * SECOND;
const DAY_MINUTES = 1440;
const LEASE_SECONDS = 10;
const SETTLE_SECONDS = 15;
/** Alone it starts the pump at most twice in this. */
const STARTS = { most: 2, minutes: 10 } as const;
/** A flood that was missed is tried again after this, so many times. */
const RETRY = { minutes: 2, most: 2 } as const;
/** Runs that its log still holds when a host asks that knows of none. */
const LOG_RUNS = 24;

export interface KeeperSetup {
  /** In the order of the day. */
  readonly parts: readonly KeeperPart[];
  readonly longestOnSeconds: number;
  readonly shortestOffSeconds: number;
  readonly startMillis: number;
  /** Drives the relay. */
  readonly drive: (pump: 'on' | 'off') => void;
  /** What its sensors made of a run that has lasted for long enough and that it has ended. */
  readonly judge: (begunBy: 'host' | 'board') => 'confirmed' | 'unproven' | 'missed';
}

interface Run {
  readonly startedAt: number;
  readonly begunBy: 'board' | 'host';
  until: number;
}

/** A run of the pump as it truly was. */
export interface TrueRun {
  readonly startedAt: number;
  readonly endedAt: number;
}

/** `same`: it has heard of every run up to when it was lost; `another`: it knows of none. */
export type Claimant = 'same' | 'another';

export class Keeper {
  readonly #setup: KeeperSetup;
  #at: number;
  /** A host beats. */
  #beaten = true;
  #leaseUntil = Infinity;
  #run: Run | null = null;
  #offAt: number;
  #holdUntil = -Infinity;
  #lastFlood: { readonly startedAt: number; readonly seconds: number } | null = null;
  #floodEndedAt = -Infinity;
  #settledAt: number | null = null;
  #tries = 0;
  #owed = false;
  /** The minute of the local day and the moment at which it was told; null where no host knew it. */
  #clock: { readonly minute: number; readonly atMillis: number } | null = null;
  /** The first run that the host has not heard of, and the first that the log can still hold. */
  #told = 0;
  #logged = 0;
  readonly #runs: KeptRun[] = [];

  constructor(setup: KeeperSetup) {
    this.#setup = setup;
    this.#at = setup.startMillis;
    this.#offAt = setup.startMillis - 3600 * SECOND;
  }

  get owner(): 'host' | 'board' {
    return this.#beaten || this.#at < this.#leaseUntil ? 'host' : 'board';
  }

  get pumpOn(): boolean {
    return this.#run !== null;
  }

  /** All runs of the pump since the start, the one under way with its end so far. */
  runs(): readonly TrueRun[] {
    const ended = this.#runs.map(({ startedAt, seconds }) => ({
      startedAt,
      endedAt: startedAt + seconds * SECOND,
    }));
    return this.#run === null ? ended : [...ended, { startedAt: this.#run.startedAt, endedAt: this.#at }];
  }

  /** The next moment at which it may do something by itself. */
  nextMillis(): number {
    const lease = this.#beaten || this.#leaseUntil <= this.#at ? Infinity : this.#leaseUntil;
    if (this.#run !== null) return Math.min(lease, this.#run.until);
    if (this.owner === 'host') return lease;
    return Math.max(this.#at + 1, Math.min(this.#nextPartMillis(), Math.max(this.#dueAt(), this.#freeAt())));
  }

  /** Time has come to this moment, and nothing was due before. */
  pass(atMillis: number): void {
    const before = this.owner;
    this.#at = Math.max(this.#at, atMillis);
    if (this.owner === 'board' && before === 'host') this.#takenOver();
    if (this.#run !== null && this.#run.until <= this.#at) this.#stop(this.owner);
    if (this.owner === 'board') this.#keep();
  }

  /** What comes from the host that owns the pump; false when it is refused. */
  command(command: BoardCommand): boolean {
    if (this.owner === 'board') return false;
    switch (command.kind) {
      case 'pump-off':
        this.#stop('host');
        return true;
      case 'pump-on':
        return this.#asked(command.longest);
      case 'hold':
        this.#holdUntil = this.#at + command.longest * SECOND;
        this.#stop('host');
        return true;
      case 'release':
        this.#holdUntil = -Infinity;
        return true;
    }
  }

  /** A host that owns the pump beats on. */
  beaten(): void {
    if (this.owner === 'host') this.#beaten = true;
  }

  /**
   * From here on no beat comes; the last one told the minute of the local day. Of all runs so far the host has heard, unless it
   * ends and another comes after it.
   */
  silent(minuteOfDay: number | 'unknown' = 'unknown'): void {
    if (!this.#beaten) return;
    this.#beaten = false;
    this.#leaseUntil = this.#at + LEASE_SECONDS * SECOND;
    this.#told = this.#runs.length;
    this.#clock = minuteOfDay === 'unknown' ? null : { minute: minuteOfDay, atMillis: this.#at };
  }

  /** A host owns the pump from here on: what it is told. Its clock gives this moment `now`. */
  claimed(claimant: Claimant, now: MonotonicMillis): Kept {
    this.#beaten = true;
    const moment = (millis: number): MonotonicMillis => monotonicMillis(now - (this.#at - millis));
    const from = Math.max(this.#logged, claimant === 'same' ? this.#told : this.#runs.length - LOG_RUNS);
    const last = this.#lastFlood;
    return {
      runs: this.#runs.slice(from).map((run) => ({ ...run, startedAt: moment(run.startedAt) })),
      forgotten: 0,
      running:
        this.#run === null
          ? null
          : { startedAt: moment(this.#run.startedAt), until: moment(this.#run.until) },
      lastFlood: last === null ? null : { ...last, startedAt: moment(last.startedAt) },
      holdUntil: this.#holdUntil > this.#at ? moment(this.#holdUntil) : null,
    };
  }

  /** A reset lets go of the relay; ages, hold and time of day are found again, and what it cut off early is owed. */
  reset(): void {
    if (this.#beaten) this.#told = this.#runs.length;
    this.#beaten = false;
    this.#leaseUntil = -Infinity;
    const run = this.#run;
    this.#stop('board');
    this.#owed ||= run !== null && !this.#wasFlood(this.#at - run.startedAt);
  }

  /** Power is lost for an instant: RAM and clock are gone, the relay is let go. */
  powerLost(): void {
    this.#stop('board');
    this.#logged = this.#runs.length;
    this.#lastFlood = null;
    this.#clock = null;
    if (!this.#beaten) this.#leaseUntil = -Infinity;
    this.#offAt = this.#at - this.#setup.shortestOffSeconds * SECOND;
    this.#settledAt = this.#at + SETTLE_SECONDS * SECOND;
  }

  pressLong(seconds: number): void {
    this.#holdUntil = this.#at + seconds * SECOND;
    this.#stop(this.owner);
  }

  #asked(longestSeconds: number): boolean {
    const { longestOnSeconds } = this.#setup;
    if (this.#run !== null) {
      const most = this.#run.startedAt + longestOnSeconds * SECOND;
      this.#run.until = Math.min(this.#at + longestSeconds * SECOND, most);
      return true;
    }
    if (this.#at < this.#restedAt()) return false;
    this.#settledAt = null;
    this.#start('host', longestSeconds);
    return true;
  }

  #start(begunBy: 'board' | 'host', seconds: number): void {
    const most = Math.min(seconds, this.#setup.longestOnSeconds) * SECOND;
    this.#run = { startedAt: this.#at, begunBy, until: this.#at + most };
    this.#setup.drive('on');
  }

  #stop(endedBy: 'host' | 'board'): void {
    const run = this.#run;
    if (run === null) return;
    const seconds = (this.#at - run.startedAt) / SECOND;
    const verdict = this.#verdictOf(run, endedBy);
    const startedAt = monotonicMillis(run.startedAt);
    this.#runs.push({ startedAt, seconds, begunBy: run.begunBy, endedBy, verdict });
    if (this.#wasFlood(this.#at - run.startedAt)) {
      this.#lastFlood = { startedAt: run.startedAt, seconds };
      this.#floodEndedAt = this.#at;
      this.#owed = false;
    }
    this.#tries = verdict === 'missed' && this.#tries < RETRY.most ? this.#tries + 1 : 0;
    this.#run = null;
    this.#offAt = this.#at;
    this.#setup.drive('off');
  }

  #verdictOf({ startedAt, begunBy }: Run, endedBy: 'host' | 'board'): KeptRun['verdict'] {
    if (endedBy === 'host') return 'judged-by-host';
    return this.#wasFlood(this.#at - startedAt) ? this.#setup.judge(begunBy) : 'cut-short';
  }

  /** It ends what a host has begun when it has run the flood of the table, or at the end that the host gave. */
  #takenOver(): void {
    if (this.#run === null) return;
    const whole = this.#run.startedAt + this.#part().floodSeconds * SECOND;
    this.#run.until = Math.min(this.#run.until, whole);
  }

  #keep(): void {
    if (this.#run !== null || this.#at < Math.max(this.#dueAt(), this.#freeAt())) return;
    this.#settledAt = null;
    this.#start('board', this.#part().floodSeconds);
  }

  #dueAt(): number {
    if (this.#settledAt !== null) return this.#settledAt;
    if (this.#owed) return -Infinity;
    if (this.#tries > 0) return this.#offAt + RETRY.minutes * MINUTE;
    return this.#floodEndedAt + this.#part().restSeconds * SECOND;
  }

  /** When the motor has rested and no hold stands. */
  #restedAt(): number {
    return Math.max(this.#holdUntil, this.#offAt + this.#setup.shortestOffSeconds * SECOND);
  }

  /** The same, and it has not started too often. */
  #freeAt(): number {
    const starts = this.#runs.filter(({ begunBy }) => begunBy === 'board');
    const first = starts.at(-STARTS.most);
    const often = first === undefined ? -Infinity : first.startedAt + STARTS.minutes * MINUTE;
    return Math.max(this.#restedAt(), often);
  }

  #wasFlood(millis: number): boolean {
    return millis >= (this.#part().floodSeconds * SECOND) / 2;
  }

  #minute(): number | null {
    if (this.#clock === null) return null;
    const { minute, atMillis } = this.#clock;
    return (minute + (this.#at - atMillis) / MINUTE) % DAY_MINUTES;
  }

  /** Of the time of day; where that is not known the one with the shortest rest. */
  #part(): Pick<KeeperPart, 'restSeconds' | 'floodSeconds'> {
    const { parts } = this.#setup;
    const minute = this.#minute();
    const now =
      minute === null
        ? parts.toSorted((one, other) => one.restSeconds - other.restSeconds)[0]
        : (parts.findLast(({ fromMinute }) => fromMinute <= minute) ?? parts.at(-1));
    return now ?? { restSeconds: 0, floodSeconds: 0 };
  }

  #nextPartMillis(): number {
    const minute = this.#minute();
    if (minute === null) return Infinity;
    const { parts } = this.#setup;
    const next =
      parts.find(({ fromMinute }) => fromMinute > minute)?.fromMinute ??
      (parts[0]?.fromMinute ?? 0) + DAY_MINUTES;
    return this.#at + (next - minute) * MINUTE;
  }
}
