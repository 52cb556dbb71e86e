import type { BoardCommand, HoldCommand, TimeOfDay } from '../../../src/ports/board.ts';
import { afterSeconds, secondsBetween, type MonotonicMillis } from '../../../src/time/instant.ts';
import { ask, into, andThen, unchanged, withEffect } from './ask.ts';
import type { Ack } from './board-message.ts';
import { refusedNotSetUp } from './hand-shake.ts';
import type { Heard } from './heard.ts';
import { holdMessage, holdWishOf, NO_HOLD_WISH, type HoldWish } from './hold-wish.ts';
import type { LinkState, Owning, Step } from './link-state.ts';
import { isReadTo, told } from './log-memory.ts';
import { answeredWish, isUnmet, wishAt, wishMessage, wishOf, wishUnderHold } from './pump-wish.ts';
import { asksFor, withoutOlder } from './question.ts';
import { compared, interrupted, isCheckDue, putAnswered, readBack } from './table-check.ts';

/** The longest lease there is: a host that misses nine ticks still has the pump at the tenth. */
export const LEASE_SECONDS = 10;
/** Ticks that follow each other faster than that say nothing new, and would fill the line. */
const HEARTBEAT_MILLIS = 200;
/** A command is said again until the next tick; then the status decides. */
const TICK_SECONDS = 0.9;
/** An answer that has not come by then does not come. */
const ANSWER_SECONDS = 3;
/** A host that looks once a second must see that the pump was gone. */
export const LOST_SECONDS = 2;

const owned = (state: LinkState, change: Partial<Owning>): LinkState =>
  state.phase.kind === 'own' ? { ...state, phase: { ...state.phase, ...change } } : state;

/** The pump is the keeper's, or somebody else's: all begins again, on the same line. */
export const lostPump = (state: LinkState, why: string, now: MonotonicMillis): Step => {
  const until = afterSeconds(now, LOST_SECONDS);
  const waiting = into({ ...state, table: interrupted(state.table) }, { kind: 'wait', until });
  return withEffect(waiting, { kind: 'down', why, keeps: true });
};

const sayPump = (state: LinkState, phase: Owning, now: MonotonicMillis): Step => {
  const message = wishMessage(phase.pump, phase.epoch, now);
  if (message === null) return unchanged(state);
  // An older command that is still open must not be said again after this one.
  const questions = state.questions.filter((question) => question.message.kind !== 'pump');
  return ask({ ...state, questions }, message, 'say-again', now);
};

const sayHold = (state: LinkState, phase: Owning, now: MonotonicMillis): Step => {
  const questions = state.questions.filter((question) => question.message.kind !== 'hold');
  const message = holdMessage(phase.hold, phase.epoch, now);
  if (message === null) return unchanged(owned({ ...state, questions }, { hold: NO_HOLD_WISH }));
  return ask({ ...state, questions }, message, 'say-again', now);
};

const inPhase = (state: LinkState, next: (phase: Owning) => Step): Step =>
  state.phase.kind === 'own' ? next(state.phase) : unchanged(state);

const holdOf = ({ heard }: LinkState, command: HoldCommand, now: MonotonicMillis): HoldWish =>
  holdWishOf(command, heard?.status.longPresses ?? 0, now);

export const commanded = (state: LinkState, command: BoardCommand, now: MonotonicMillis): Step => {
  switch (command.kind) {
    case 'pump-on':
    case 'pump-off': {
      const wishing = owned(state, { pump: wishOf(command, now) });
      return inPhase(wishing, (phase) => sayPump(wishing, phase, now));
    }
    case 'hold': {
      // What was wanted before the hold must not start the pump at its end.
      const holding = owned(state, { hold: holdOf(state, command, now), pump: { kind: 'off' } });
      return inPhase(holding, (phase) => sayHold(holding, phase, now));
    }
    case 'release': {
      const releasing = owned(state, { hold: holdOf(state, command, now) });
      return inPhase(releasing, (phase) => sayHold(releasing, phase, now));
    }
  }
};

/** A completed tick: the one thing that lets the lease go on. */
export const ticked = (state: LinkState, time: TimeOfDay | 'unknown', now: MonotonicMillis): Step =>
  inPhase(state, ({ epoch, heartbeatAt }) => {
    if (heartbeatAt !== null && now - heartbeatAt < HEARTBEAT_MILLIS) return unchanged(state);
    const questions = state.questions.filter(
      ({ message, askedAt }) =>
        (message.kind !== 'pump' && message.kind !== 'hold') || secondsBetween(askedAt, now) < TICK_SECONDS,
    );
    const ready = owned({ ...state, questions }, { heartbeatAt: now });
    const { signals } = state;
    return ask(
      ready,
      { kind: 'heartbeat', epoch, leaseSeconds: LEASE_SECONDS, time, signals },
      'let-be',
      now,
    );
  });

/** Once a second: without ticks nothing is claimed to live, but the board is still listened to. */
export const beatOwning = (state: LinkState, now: MonotonicMillis): Step =>
  inPhase(state, ({ heartbeatAt }) => {
    const heard: LinkState = { ...state, questions: withoutOlder(state.questions, ANSWER_SECONDS, now) };
    if (heartbeatAt !== null && secondsBetween(heartbeatAt, now) < TICK_SECONDS) return unchanged(heard);
    return ask(heard, { kind: 'status' }, 'let-be', now);
  });

const ownershipWhy = ({ status }: Heard, { epoch }: Owning): string | null => {
  if (status.owner === 'keeper') return 'the board has taken the pump, and floods by its own table';
  return status.epoch === epoch ? null : 'the board has given the pump to somebody else';
};

const compareHold = (state: LinkState, now: MonotonicMillis): Step =>
  inPhase(state, (phase) =>
    phase.hold.kind === 'none' || asksFor(state.questions, 'hold')
      ? unchanged(state)
      : sayHold(state, phase, now),
  );

const comparePump = (state: LinkState, { status }: Heard, now: MonotonicMillis): Step =>
  inPhase(state, (phase) => {
    const pump = wishUnderHold(wishAt(phase.pump, now), status, now);
    const wishing = owned(state, { pump });
    if (asksFor(state.questions, 'pump') || !isUnmet(pump, status, now)) return unchanged(wishing);
    return sayPump(wishing, { ...phase, pump }, now);
  });

const compareLog = (state: LinkState, { status }: Heard, now: MonotonicMillis): Step => {
  const { next } = state.log;
  if (next === null || isReadTo(state.log, status.logNext) || asksFor(state.questions, 'log-get'))
    return unchanged(state);
  return ask(state, { kind: 'log-get', from: next }, 'let-be', now);
};

const compareTable = (state: LinkState, { status }: Heard, now: MonotonicMillis): Step => {
  const table = readBack(state.table, status, now);
  const read: LinkState = { ...state, table };
  return isCheckDue(table, now) ? withEffect(read, { kind: 'want-table' }) : unchanged(read);
};

export const statusOwning = (state: LinkState, heard: Heard, now: MonotonicMillis): Step =>
  inPhase(state, (phase) => {
    const why = ownershipWhy(heard, phase);
    if (why !== null) return lostPump(state, why, now);
    const held = compareHold(state, now);
    const pumped = andThen(held, (next) => comparePump(next, heard, now));
    const logged = andThen(pumped, (next) => compareLog(next, heard, now));
    return andThen(logged, (next) => compareTable(next, heard, now));
  });

/** What ran while the pump was ours has been judged already. */
export const logOwning = (state: LinkState): Step =>
  inPhase(state, () => unchanged({ ...state, log: told(state.log) }));

export const tableGiven = (state: LinkState, wanted: Uint8Array | null, now: MonotonicMillis): Step =>
  inPhase(state, ({ epoch }) => {
    if (state.heard === null || !isCheckDue(state.table, now)) return unchanged(state);
    const table = compared(state.table, wanted, state.heard.status, now);
    const checked: LinkState = { ...state, table };
    if (wanted === null || table.state.kind !== 'putting') return unchanged(checked);
    return ask(checked, { kind: 'table-put', epoch, table: wanted }, 'let-be', now);
  });

export const ackOwning = (
  state: LinkState,
  kind: 'pump' | 'hold' | 'table-put',
  ack: Ack,
  now: MonotonicMillis,
): Step =>
  inPhase(state, (phase) => {
    if (ack.result === 'stale')
      return lostPump(state, 'the board no longer takes this host for the owner of the pump', now);
    if (kind === 'table-put') return unchanged({ ...state, table: putAnswered(state.table, ack, now) });
    if (ack.result === 'not-set-up') return refusedNotSetUp(state, now);
    return kind === 'pump'
      ? unchanged(owned(state, { pump: answeredWish(phase.pump, ack, now) }))
      : unchanged(owned(state, { hold: NO_HOLD_WISH }));
  });
