import { afterSeconds, secondsBetween, type MonotonicMillis } from '../../../src/time/instant.ts';
import { into, intoAsking, tell, unchanged, withEffect } from './ask.ts';
import type { Ack, BoardMessage, Hello } from './board-message.ts';
import type { Heard } from './heard.ts';
import { keptOf } from './kept.ts';
import { owning, type LinkAsked, type LinkEffect, type LinkState, type Step } from './link-state.ts';
import { isReadTo, readEntries, reconciled, told } from './log-memory.ts';
import { isSetUp, setupDifferences, setupWhy, FLASH_AGAIN } from './setup-compare.ts';

/** Of docs/board-protocol.md. Another major number may mean anything by the same bytes. */
export const PROTOCOL_MAJOR = 1;
/** A refused board is not asked again sooner: only a person changes what is wrong. */
const REFUSED_SECONDS = 60;
/** From the claim until all is known; a line on which it takes longer is too bad to drive a pump over. */
const SETTLE_SECONDS = 5;
/** After a failed claim: a keeper whose flood is due gets the pump first. */
const YIELD_SECONDS = 5;

export const askHello = (state: LinkState, now: MonotonicMillis): Step =>
  intoAsking(state, { kind: 'hello' }, { kind: 'hello' }, now);

export const askStatus = (state: LinkState, now: MonotonicMillis): Step =>
  intoAsking(state, { kind: 'status' }, { kind: 'status' }, now);

const refused = (state: LinkState, why: string, keeps: boolean, now: MonotonicMillis): Step =>
  withEffect(into(state, { kind: 'refused', why, tryAt: afterSeconds(now, REFUSED_SECONDS) }), {
    kind: 'down',
    why,
    keeps,
  });

export const refusedNotSetUp = (state: LinkState, now: MonotonicMillis): Step =>
  refused(
    state,
    `the board is not set up: it drives no pin and keeps no plants. Flash it: ${FLASH_AGAIN}`,
    false,
    now,
  );

const versionWhy = ({ protocol, firmware }: Hello): string =>
  `the board's firmware ${firmware.major}.${firmware.minor} speaks keeper protocol ${protocol.major}.${protocol.minor}, this program ${PROTOCOL_MAJOR}: flash the board with this program (${FLASH_AGAIN}), or update the program`;

export const helloHeard = (state: LinkState, hello: Hello, now: MonotonicMillis): Step => {
  if (state.phase.kind !== 'hello') return unchanged(state);
  const known: LinkState = { ...state, hello };
  return hello.protocol.major === PROTOCOL_MAJOR
    ? askStatus(known, now)
    : refused(known, versionWhy(hello), isSetUp(hello.setup), now);
};

/** Looks again with the next beat: a board that says no to every claim is not asked as fast as it answers. */
const atNextBeat = (state: LinkState, now: MonotonicMillis): LinkState =>
  into(state, { kind: 'wait', until: now });

/** Why this board must not be claimed, or null when it may. */
const unfitWhy = ({ hello }: LinkState, { setup, misfitWhy }: LinkAsked): string | null => {
  if (setup === null || hello === null)
    return "this program was not told the farm's setup, and drives no board without comparing it";
  const differences = setupDifferences(hello.setup, setup);
  return differences.length === 0 ? misfitWhy : setupWhy(differences);
};

const claim = (state: LinkState, { status }: Heard, now: MonotonicMillis): Step => {
  if (now < state.claimFrom) return unchanged(into(state, { kind: 'wait', until: state.claimFrom }));
  return intoAsking(state, { kind: 'claim' }, { kind: 'claim', epoch: status.epoch }, now);
};

/** Reads on, or goes on when all has been read. */
const readOn = (
  state: LinkState,
  heard: Heard,
  now: MonotonicMillis,
  done: (state: LinkState) => Step,
): Step => {
  const { next } = state.log;
  if (next === null || isReadTo(state.log, heard.status.logNext)) return done(state);
  return intoAsking(state, state.phase, { kind: 'log-get', from: next }, now);
};

const up = (state: LinkState, heard: Heard, epoch: number): Step =>
  withEffect(
    { ...into(state, owning(epoch)), log: told(state.log) },
    {
      kind: 'up',
      kept: keptOf(heard, state.log),
    },
  );

/** A status that was asked for in the hand-shake. */
export const statusInHandShake = (
  state: LinkState,
  heard: Heard,
  asked: LinkAsked,
  now: MonotonicMillis,
): Step => {
  const { phase } = state;
  if (phase.kind === 'status') {
    if (asked.use === 'look') return unchanged(into(state, { kind: 'look' }));
    if (heard.status.flags.notSetUp) return refusedNotSetUp(state, now);
    const why = unfitWhy(state, asked);
    if (why !== null) return refused(state, why, true, now);
    const reading = into({ ...state, log: reconciled(state.log, heard) }, { kind: 'log' });
    return readOn(reading, heard, now, (read) => claim(read, heard, now));
  }
  if (phase.kind !== 'settle') return unchanged(state);
  const { epoch, owner } = heard.status;
  if (epoch !== phase.epoch || owner !== 'host') return unchanged(atNextBeat(state, now));
  return readOn({ ...state, phase: { ...phase, statusHeard: true } }, heard, now, (read) =>
    up(read, heard, phase.epoch),
  );
};

export const claimAnswered = (state: LinkState, ack: Ack, now: MonotonicMillis): Step => {
  if (state.phase.kind !== 'claim') return unchanged(state);
  switch (ack.result) {
    case 'done': {
      // Who was the owner by the status of this epoch still is: its log then says nothing of a new one.
      const owned = state.heard?.status.owner === 'host' ? 'yes' : 'claimed';
      const claimed: LinkState = { ...state, log: { ...state.log, owned } };
      const phase = { kind: 'settle', epoch: ack.value, since: now, statusHeard: false } as const;
      return intoAsking(claimed, phase, { kind: 'status' }, now);
    }
    case 'stale':
      return unchanged(atNextBeat(state, now));
    case 'not-set-up':
      return refusedNotSetUp(state, now);
    case 'resting':
    case 'held':
    case 'tank-low':
    case 'bad-value':
    case 'not-stored':
      return unchanged(into(state, { kind: 'wait', until: afterSeconds(now, YIELD_SECONDS) }));
  }
};

/** Entries of the log, in any phase that reads it. */
export const logHeard = (
  state: LinkState,
  { first, entries }: Extract<BoardMessage, { kind: 'log' }>,
): Step => {
  if (state.heard === null) return unchanged(state);
  const { memory, presses } = readEntries(state.log, first, entries, state.heard);
  // A board that gives no entry has none: asked again it would give none again.
  const log = entries.length === 0 ? { ...memory, next: state.heard.status.logNext } : memory;
  const effects = presses.map((press): LinkEffect => ({ kind: 'pressed', press }));
  return { state: { ...state, log }, effects };
};

export const logInHandShake = (state: LinkState, now: MonotonicMillis): Step => {
  const { phase, heard } = state;
  if (heard === null) return unchanged(state);
  if (phase.kind === 'log') return readOn(state, heard, now, (read) => claim(read, heard, now));
  if (phase.kind === 'settle' && phase.statusHeard)
    return readOn(state, heard, now, (read) => up(read, heard, phase.epoch));
  return unchanged(state);
};

/** Once a second, where something waits for its time. */
export const beatInHandShake = (state: LinkState, now: MonotonicMillis): Step => {
  const { phase } = state;
  switch (phase.kind) {
    case 'wait':
      return now < phase.until ? unchanged(state) : askStatus(state, now);
    case 'refused':
      return now < phase.tryAt ? unchanged(state) : askHello(state, now);
    case 'settle': {
      if (secondsBetween(phase.since, now) <= SETTLE_SECONDS) return unchanged(state);
      const waiting = into(state, { kind: 'wait', until: afterSeconds(now, YIELD_SECONDS) });
      return tell(waiting, { kind: 'let-go', epoch: phase.epoch });
    }
    case 'hello':
    case 'status':
    case 'log':
    case 'claim':
    case 'own':
    case 'look':
      return unchanged(state);
  }
};
