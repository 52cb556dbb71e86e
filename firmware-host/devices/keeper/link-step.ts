import type { MonotonicMillis } from '../../../src/time/instant.ts';
import { ask, saidAgain, tell, andThen, unchanged, withEffect } from './ask.ts';
import { lookedAt } from './board-clock.ts';
import type { Ack, BoardMessage } from './board-message.ts';
import {
  askHello,
  beatInHandShake,
  claimAnswered,
  helloHeard,
  logHeard,
  logInHandShake,
  statusInHandShake,
} from './hand-shake.ts';
import type { HostMessage } from './host-message.ts';
import type { LinkAsked, LinkEvent, LinkState, Step } from './link-state.ts';
import { remembering } from './log-memory.ts';
import { ackOwning, beatOwning, commanded, logOwning, statusOwning, tableGiven, ticked } from './own-step.ts';
import { questionOf, withoutAnswered, withoutOlder } from './question.ts';
import type { KeeperStatus } from './status.ts';

/** Beats in which an answer was awaited and none came: at the next, three seconds have passed. */
const SILENT_BEATS_MAX = 3;
/** A clock that goes back by more is another life of the board. */
const UPTIME_JITTER_SECONDS = 2;
const ANSWER_SECONDS = 3;

const statusHeard = (
  state: LinkState,
  status: KeeperStatus,
  asked: LinkAsked,
  now: MonotonicMillis,
): Step => {
  const before = state.heard;
  const heard = { status, at: now };
  const next: LinkState = {
    ...state,
    heard,
    clock: lookedAt(state.clock, { uptimeSeconds: status.uptimeSeconds, at: now }),
  };
  if (before !== null && status.uptimeSeconds + UPTIME_JITTER_SECONDS < before.status.uptimeSeconds)
    return withEffect(next, { kind: 'lost', why: 'the board has reset itself' });
  const step =
    next.phase.kind === 'own' ? statusOwning(next, heard, now) : statusInHandShake(next, heard, asked, now);
  // Only now: what was remembered before tells what became of the board meanwhile.
  return { ...step, state: { ...step.state, log: remembering(step.state.log, heard) } };
};

const acked = (state: LinkState, message: HostMessage, ack: Ack, now: MonotonicMillis): Step => {
  switch (message.kind) {
    case 'claim':
      return claimAnswered(state, ack, now);
    case 'pump':
    case 'hold':
    case 'table-put':
      return ackOwning(state, message.kind, ack, now);
    case 'let-go':
    case 'hello':
    case 'status':
    case 'heartbeat':
    case 'table-get':
    case 'log-get':
      return unchanged(state);
  }
};

const answered = (
  state: LinkState,
  seq: number,
  message: BoardMessage,
  asked: LinkAsked,
  now: MonotonicMillis,
): Step => {
  const question = questionOf(state.questions, seq, message);
  // What nobody asked, or was answered before: a line that repeats proves no life, and changes nothing.
  if (question === null) return unchanged(state);
  const heard: LinkState = {
    ...state,
    questions: withoutAnswered(state.questions, question),
    silentBeats: 0,
  };
  switch (message.kind) {
    case 'hello':
      return helloHeard(heard, message, now);
    case 'status':
      return statusHeard(heard, message.status, asked, now);
    case 'ack':
      return acked(heard, question.message, message, now);
    case 'log':
      return andThen(
        andThen(logHeard(heard, message), (read) => logInHandShake(read, now)),
        (read) => (heard.phase.kind === 'own' ? logOwning(read) : unchanged(read)),
      );
    case 'table':
      return unchanged(heard);
  }
};

const beat = (state: LinkState, now: MonotonicMillis): Step => {
  const silentBeats = state.questions.length === 0 ? 0 : state.silentBeats + 1;
  if (silentBeats > SILENT_BEATS_MAX)
    return withEffect(state, { kind: 'lost', why: `the keeper has not answered for ${SILENT_BEATS_MAX} s` });
  const counted: LinkState = { ...state, silentBeats };
  switch (state.phase.kind) {
    case 'own':
      return beatOwning(counted, now);
    case 'look':
      return ask(
        { ...counted, questions: withoutOlder(counted.questions, ANSWER_SECONDS, now) },
        { kind: 'status' },
        'let-be',
        now,
      );
    case 'hello':
    case 'status':
    case 'log':
    case 'claim':
    case 'settle':
    case 'wait':
    case 'refused':
      return beatInHandShake(counted, now);
  }
};

const letGo = (state: LinkState): Step => {
  const { phase } = state;
  if (phase.kind !== 'own' && phase.kind !== 'settle') return unchanged(state);
  return tell(state, { kind: 'let-go', epoch: phase.epoch });
};

/** The whole link with a keeper, one event at a time. Pure. */
export const linkStep = (
  state: LinkState,
  event: LinkEvent,
  asked: LinkAsked,
  now: MonotonicMillis,
): Step => {
  switch (event.kind) {
    case 'begin':
      return askHello(state, now);
    case 'frame':
      return answered(state, event.seq, event.message, asked, now);
    case 'beat':
      return beat(state, now);
    case 'alive':
      return ticked(state, event.time, now);
    case 'command':
      return commanded(state, event.command, now);
    case 'show':
      return unchanged({ ...state, signals: event.signals });
    case 'due':
      return saidAgain(state, now);
    case 'table':
      return tableGiven(state, event.table, now);
    case 'let-go':
      return letGo(state);
  }
};
