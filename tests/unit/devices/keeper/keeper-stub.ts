import { asU16, crcBits, sysexFrame, u16, u32, type Asked } from './board-side.ts';

/** A keeper for tests: what docs/board-protocol.md says of epoch, lease, pump, hold, table and log, and no floods of its own. */

export const HELLO = 1;
export const STATUS = 2;
export const CLAIM = 3;
export const HEARTBEAT = 4;
export const PUMP = 5;
export const HOLD = 6;
export const TABLE_PUT = 7;
export const LOG_GET = 9;
export const LET_GO = 10;

export const DONE = 0;
export const STALE = 1;

export interface StubState {
  major: number;
  setup: number[];
  notSetUp: boolean;
  epoch: number;
  owner: 'keeper' | 'host';
  leaseUntil: number;
  bootAt: number;
  /** Seconds of the board in one of the host. */
  clockRate: number;
  pump: { since: number; until: number } | null;
  offSince: number;
  shortestOff: number;
  longestOn: number;
  holdUntil: number;
  longPresses: number;
  tankLowSips: 'none' | 'refused';
  table: number[];
  /** Whether a table that is put is kept, refused as a bad value, or could not be verified. */
  puts: 'kept' | 'bad-value' | 'not-stored';
  log: number[][];
  logFirst: number;
  resets: number;
  /** Every answer of a claim, by epoch: those that were this board's to give. */
  claimed: number[];
  starts: number;
  /** Types of questions that get no answer. */
  deaf: number[];
}

export interface Stub {
  readonly state: StubState;
  readonly heard: (Asked & { readonly at: number })[];
  /** The answer to a question, or null when it has none. */
  readonly answer: (asked: Asked) => readonly number[] | null;
  /** Lets the board live up to now. */
  readonly live: () => void;
  readonly takeBack: (why: number) => void;
  readonly press: (detail: 0 | 1) => void;
  readonly run: (detail: number, secondsAgo: number, seconds: number) => void;
  readonly startPump: (seconds: number) => void;
}

export const TABLE = [1, 1, ...u16(10_800), ...u16(480), ...u16(0), ...u16(2400), ...u16(3600), ...u16(1200)];
const UNKNOWN = 0xffff;

export const stubSetup = (): number[] => {
  const setup = Array.from({ length: 72 }, () => 0);
  setup.splice(0, 4, 1, 0, 7, 1);
  return setup;
};

export const createStub = (now: () => number, change: Partial<StubState> = {}): Stub => {
  const state: StubState = {
    major: 1,
    setup: stubSetup(),
    notSetUp: false,
    epoch: 100,
    owner: 'keeper',
    leaseUntil: 0,
    bootAt: now() - 3_600_000,
    clockRate: 1,
    pump: null,
    offSince: now() - 600_000,
    shortestOff: 30,
    longestOn: 1800,
    holdUntil: 0,
    longPresses: 0,
    tankLowSips: 'none',
    table: [...TABLE],
    puts: 'kept',
    log: [],
    logFirst: 7,
    resets: 0,
    claimed: [],
    starts: 0,
    deaf: [],
    ...change,
  };
  const heard: (Asked & { at: number })[] = [];
  const seconds = (millis: number): number => Math.max(0, Math.floor(millis / 1000));
  const uptime = (): number => Math.floor(((now() - state.bootAt) / 1000) * state.clockRate);
  const logNext = (): number => (state.logFirst + state.log.length) % 0x10000;

  const note = (kind: number, detail: number, value: number, at = uptime()): void => {
    state.log.push([...u32(at), kind, detail, ...u16(value)]);
    if (state.log.length > 32) {
      state.log.shift();
      state.logFirst = (state.logFirst + 1) % 0x10000;
    }
  };
  const own = (owner: 'keeper' | 'host', how: number): void => {
    state.owner = owner;
    state.epoch = (state.epoch + 1) % 0x10000;
    note(3, how, 0);
  };
  const stop = (at: number): void => {
    if (state.pump === null) return;
    note(1, 5 | 0x10, seconds(at - state.pump.since), uptime() - seconds(now() - state.pump.since));
    state.pump = null;
    state.offSince = at;
  };
  const live = (): void => {
    if (state.pump !== null && now() >= state.pump.until) stop(state.pump.until);
    if (state.owner === 'host' && now() >= state.leaseUntil) own('keeper', 0);
  };

  const statusBody = (): readonly number[] => {
    const { pump } = state;
    const flags = state.notSetUp ? 1 << 4 : 0;
    return [
      ...u16(state.epoch),
      state.owner === 'host' ? 1 : 0,
      ...u32(uptime()),
      ...u16(pump === null ? 0 : 1),
      ...u16(flags),
      ...u16(pump === null ? 0 : Math.ceil((pump.until - now()) / 1000)),
      ...u16(seconds(now() - (pump === null ? state.offSince : pump.since))),
      ...u16(UNKNOWN),
      ...u16(0),
      ...u16(Math.ceil(Math.max(0, state.holdUntil - now()) / 1000)),
      state.owner === 'host' ? seconds(state.leaseUntil - now()) : 0,
      ...u16(UNKNOWN),
      ...u16(UNKNOWN),
      0,
      ...u16(1),
      ...u16(crcBits(state.table)),
      ...u16(logNext()),
      1,
      ...u16(state.resets),
      0xff,
      0xde,
      0xfd,
      0xff,
      ...u16(0),
      ...u16(0),
      ...u16(600),
      0,
      ...u16(state.longPresses),
    ];
  };

  const pumpOrder = (on: number, longest: number): readonly [number, number] => {
    if (on === 0) {
      stop(now());
      return [DONE, 0];
    }
    if (longest === 0 || on !== 1) return [5, 0];
    if (now() < state.holdUntil) return [3, seconds(state.holdUntil - now())];
    if (state.pump === null) {
      const rested = state.offSince + state.shortestOff * 1000;
      if (now() < rested) return [2, Math.ceil((rested - now()) / 1000)];
      if (state.tankLowSips === 'refused') return [4, 300];
      state.starts += 1;
      state.pump = { since: now(), until: 0 };
    }
    const { since } = state.pump;
    state.pump.until = Math.min(now() + longest * 1000, since + state.longestOn * 1000);
    return [DONE, Math.ceil((state.pump.until - now()) / 1000)];
  };

  const ordered = ({ type, body }: Asked): readonly [number, number] => {
    const owns = state.owner === 'host' && asU16(body, 0) === state.epoch;
    if (type === CLAIM) {
      if (asU16(body, 0) !== state.epoch) return [STALE, state.epoch];
      own('host', 1);
      state.leaseUntil = now() + 10_000;
      state.claimed.push(state.epoch);
      return [DONE, state.epoch];
    }
    if (!owns) return [STALE, state.epoch];
    switch (type) {
      case PUMP:
        return pumpOrder(body[2]!, asU16(body, 3));
      case HOLD: {
        const held = asU16(body, 2);
        if (asU16(body, 4) !== state.longPresses && now() + held * 1000 < state.holdUntil)
          return [3, seconds(state.holdUntil - now())];
        state.holdUntil = held === 0 ? 0 : now() + held * 1000;
        if (held > 0) stop(now());
        return [DONE, held];
      }
      case TABLE_PUT:
        if (state.puts === 'bad-value') return [5, 0];
        if (state.puts === 'not-stored') return [7, 0];
        state.table = body.slice(2);
        return [DONE, 2];
      case LET_GO:
        own('keeper', 2);
        return [DONE, state.epoch];
      default:
        throw new Error(`a stub cannot answer type ${type}`);
    }
  };

  const answer = (asked: Asked): readonly number[] | null => {
    live();
    heard.push({ ...asked, at: now() });
    const { type, seq, body } = asked;
    if (state.deaf.includes(type)) return null;
    switch (type) {
      case HELLO:
        return sysexFrame(0x41, seq, [state.major, 0, 1, 0, ...state.setup]);
      case HEARTBEAT:
        if (state.owner === 'host' && asU16(body, 0) === state.epoch)
          state.leaseUntil = now() + body[2]! * 1000;
        return sysexFrame(0x42, seq, statusBody());
      case STATUS:
        return sysexFrame(0x42, seq, statusBody());
      case LOG_GET: {
        const from = (asU16(body, 0) - state.logFirst + 0x10000) % 0x10000;
        const at = from > state.log.length ? 0 : from;
        const entries = state.log.slice(at, at + 8).flat();
        return sysexFrame(0x49, seq, [...u16((state.logFirst + at) % 0x10000), ...entries]);
      }
      default: {
        const [result, value] = ordered(asked);
        return sysexFrame(0x40, seq, [type, result, ...u16(value)]);
      }
    }
  };

  return {
    state,
    heard,
    answer,
    live,
    takeBack: (why) => {
      own('keeper', why);
    },
    press: (detail) => {
      note(6, detail, detail === 0 ? 0 : 1800);
      if (detail === 0) return;
      state.longPresses += 1;
      state.holdUntil = now() + 1_800_000;
      stop(now());
    },
    run: (detail, secondsAgo, ran) => {
      note(1, detail, ran, uptime() - secondsAgo);
    },
    startPump: (longest) => {
      state.pump = { since: now(), until: now() + longest * 1000 };
    },
  };
};
