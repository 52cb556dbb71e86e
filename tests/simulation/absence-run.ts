import { keptText, readKept } from '../../firmware-host/storage/kept-state.ts';
import { begin, keptState, resumed, step, type ControllerState, type Event } from '../../src/controller.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import type { BoardCommand, Link } from '../../src/ports/board.ts';
import { monotonicMillis, wallMillis, type Now } from '../../src/time/instant.ts';
import { createKeepingBoard, type KeepingBoard, type TrueRun } from '../support/keeping-board.ts';

const SECOND = 1000;
const MINUTE = 60 * SECOND;
/** A host calls the link dead after so long, and is back so long after the line is whole. */
const NOTICES_SECONDS = 3;
const CLAIMS_SECONDS = 1;
/** A loss that is noticed lasts at least this long. */
const LOST_SECONDS = 2;

/** One absence: when the line is cut and for how long, seconds since the start. */
export interface Cut {
  readonly at: number;
  readonly seconds: number;
}

export interface AbsenceAsked {
  readonly farm: Farm;
  readonly startWall: number;
  readonly seconds: number;
  readonly table: { readonly restSeconds: number; readonly floodSeconds: number };
  readonly cuts: readonly Cut[];
  /** Orders at the host, seconds since the start. */
  readonly orders?: readonly { readonly at: number; readonly event: Event }[];
  /** What happens at the board itself. */
  readonly atBoard?: readonly { readonly at: number; readonly does: (board: KeepingBoard) => void }[];
  /**
   * `dies`: the host forgets everything with each cut, and begins anew when the line is back. `resumes`: its process ends with each
   * cut, and one that goes on from what was kept begins half way through the cut.
   */
  readonly host?: 'dies' | 'stays' | 'resumes';
  readonly clock?: 'known' | 'unknown';
}

export interface Told {
  readonly at: number;
  readonly command: BoardCommand;
  readonly heard: boolean;
}

export interface AbsenceRun {
  readonly runs: readonly TrueRun[];
  readonly entries: readonly Entry[];
  readonly told: readonly Told[];
  readonly state: ControllerState;
  /** Moments at which the host heard the board again. */
  readonly backAt: readonly number[];
}

/** A host and a board that keeps the plants, with a line between them that is cut; all in steps of a second. */
export const runAbsence = (asked: AbsenceAsked): AbsenceRun => {
  const { farm, table } = asked;
  const board = createKeepingBoard({
    ...table,
    longestOnSeconds: farm.pump.longestOnMinutes * 60,
    shortestOffSeconds: farm.pump.shortestOffSeconds,
    startMillis: 0,
  });
  let at = 0;
  const now = (): Now => ({
    monotonic: monotonicMillis(at),
    wall: asked.clock === 'unknown' ? 'unknown' : wallMillis(asked.startWall + at),
  });
  let state = begin(farm, now(), { kind: 'up', kept: board.claimed() });
  let wake = 0;
  const line = { whole: true };
  const host = { there: true };
  const entries: Entry[] = [];
  const told: Told[] = [];
  const backAt: number[] = [];

  const hand = (event: Event): void => {
    const next = step(farm, state, event, now());
    state = next.state;
    ({ wake } = next);
    entries.push(...next.entries);
    for (const command of next.commands) {
      told.push({ at, command, heard: line.whole && board.command(command) });
    }
  };
  const isUp = (): boolean => state.link.kind === 'up';
  const linked = (link: Link): void => {
    hand({ kind: 'link', link });
  };

  let kept: string | null = null;
  let keptAt = 0;
  const resume = (): void => {
    const read = readKept(kept);
    if (read.kind !== 'found') throw new Error('what was kept cannot be read');
    host.there = true;
    state = resumed(farm, read.stored.state, now(), (at - keptAt) / MINUTE, {
      kind: 'down',
      why: 'not found yet',
    });
    hand({ kind: 'time' });
  };

  /** What the line does to the link, by the seconds since it was cut. */
  const follow = ({ at: cutAt, seconds }: Cut): void => {
    const since = at / SECOND - cutAt;
    const { host: fate = 'stays' } = asked;
    const noticed = seconds >= NOTICES_SECONDS || fate !== 'stays';
    const backAfter = Math.max(seconds, NOTICES_SECONDS + LOST_SECONDS) + CLAIMS_SECONDS;
    if (since === 0) {
      board.cut(fate === 'stays' ? 'stays' : 'dies');
      line.whole = false;
      if (fate !== 'stays' && host.there) {
        kept = keptText(keptState(state, now()), null);
        keptAt = at;
      }
      host.there = fate === 'stays';
    }
    if (fate === 'resumes' && since === Math.floor(seconds / 2) + 1) resume();
    if (fate === 'stays' && since === NOTICES_SECONDS && noticed) {
      linked({ kind: 'down', why: 'unplugged', keeper: 'keeps' });
    }
    if (since === seconds && !noticed) {
      board.claimed();
      line.whole = true;
    }
    if (since === backAfter && noticed) {
      const kept = board.claimed();
      line.whole = true;
      backAt.push(at);
      if (host.there) linked({ kind: 'up', kept });
      else {
        host.there = true;
        state = begin(farm, now(), { kind: 'up', kept });
        hand({ kind: 'time' });
      }
    }
  };

  for (let second = 0; second <= asked.seconds; second += 1) {
    at = second * SECOND;
    board.advance(at);
    for (const { at: when, does } of asked.atBoard ?? []) if (when === second) does(board);
    for (const cut of asked.cuts) follow(cut);
    if (!host.there) continue;
    for (const order of asked.orders ?? []) if (order.at === second) hand(order.event);
    if (at < wake && second % 30 !== 0) continue;
    hand(isUp() && line.whole ? { kind: 'samples', samples: board.samples() } : { kind: 'time' });
  }
  return { runs: board.runs(), entries, told, state, backAt };
};

export interface Counted {
  /** Rests between whole floods that are longer than they may be, minutes. */
  readonly lost: readonly number[];
  /** Rests between whole floods that are shorter than the shortest, minutes. */
  readonly doubled: readonly number[];
  /** Floods of the host with no verdict, or more than one. */
  readonly misjudged: readonly number[];
}

/** Holds the true runs against what the plan allows; `heldFor` are minutes that a hold adds to a rest. */
export const counted = (
  { runs, entries, state }: AbsenceRun,
  bounds: {
    readonly floodSeconds: number;
    readonly shortestRestMinutes: number;
    readonly longestRestMinutes: number;
    readonly untilMillis: number;
    readonly held?: readonly { readonly from: number; readonly until: number }[];
  },
): Counted => {
  const whole = runs.filter(
    ({ startedAt, endedAt }) =>
      endedAt - startedAt >= bounds.floodSeconds * 500 || endedAt === bounds.untilMillis,
  );
  const ends = [...whole.slice(1).map(({ startedAt }) => startedAt), bounds.untilMillis];
  const rests = whole.map(({ endedAt }, place) => {
    const next = ends[place]!;
    const within = (span: TrueRun): number =>
      Math.max(0, Math.min(next, span.endedAt) - Math.max(endedAt, span.startedAt)) / MINUTE;
    // Neither a hold nor what ran of a flood that was cut short is rest.
    const others = [
      ...runs.filter((run) => !whole.includes(run)),
      ...(bounds.held ?? []).map(({ from, until }) => ({ startedAt: from, endedAt: until })),
    ];
    return {
      minutes: (next - endedAt) / MINUTE,
      heldMinutes: others.reduce((sum, span) => sum + within(span), 0),
    };
  });
  const started = entries.flatMap((entry) => (entry.kind === 'flood-started' ? [entry.flood] : []));
  const judged = entries.flatMap((entry) => (entry.kind === 'verdict' ? [entry.flood] : []));
  const open = state.flood?.id;
  return {
    lost: rests
      .filter(({ minutes, heldMinutes }) => minutes - heldMinutes > bounds.longestRestMinutes)
      .map(({ minutes }) => minutes),
    doubled: rests
      .slice(0, -1)
      .filter(({ minutes }) => minutes < bounds.shortestRestMinutes)
      .map(({ minutes }) => minutes),
    misjudged: started.filter(
      (flood) => judged.filter((one) => one === flood).length !== (flood === open ? 0 : 1),
    ),
  };
};
