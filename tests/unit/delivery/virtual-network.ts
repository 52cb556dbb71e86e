import type { Call } from '../../../src/delivery/call.ts';
import type { Message, Sent } from '../../../src/delivery/message.ts';
import {
  freshDelivery,
  type ChannelTraits,
  type DeliveryEvent,
  type DeliverySettings,
  type DeliveryState,
} from '../../../src/delivery/delivery-state.ts';
import { step, wakesAt } from '../../../src/delivery/delivery.ts';
import type { HeraldHeard } from '../../../src/delivery/heard.ts';
import type { Person } from '../../../src/delivery/rota.ts';
import { monotonicMillis, wallMillis, type Now } from '../../../src/time/instant.ts';

export const GSM: ChannelTraits = { name: 'modem', forms: ['ring', 'text'], most: 1, checks: 'yes' };
export const MAIL: ChannelTraits = { name: 'mail', forms: ['mail'], most: 2, checks: 'yes' };
export const HOOK: ChannelTraits = { name: 'webhook shop', forms: ['post'], most: 2, checks: 'no' };
export const BROKER: ChannelTraits = { name: 'broker', forms: ['post'], most: 4, checks: 'yes' };

export const ANA: Person = { name: 'Ana', phone: '+351912000001', email: 'ana@example.org' };
export const RUI: Person = { name: 'Rui', phone: '+351912000002', email: 'rui@example.org' };

export const settingsWith = (
  channels: readonly ChannelTraits[],
  people: readonly Person[] = [ANA, RUI],
): DeliverySettings => ({
  language: 'en',
  rota: { people, night: { from: '21:00', to: '07:00' }, timeZone: 'Europe/Lisbon' },
  channels,
});

export const RAISED: Call = {
  kind: 'raised',
  alarm: 'missed-flood',
  also: [],
  seenBy: null,
  priority: 'high',
  text: 'No water came back since 13:42.',
  message: 'No water since 13:42.',
  rung: 0,
  minutesLeft: 45,
};

/** The host asks for a call at this second. */
export const told = (
  call: Call = RAISED,
  atSeconds = 10,
): { readonly atSeconds: number; readonly event: { readonly kind: 'tell'; readonly call: Call } } => ({
  atSeconds,
  event: { kind: 'tell', call },
});

/** 2026-07-14, 13:42 in Lisbon. */
export const BY_DAY = Date.parse('2026-07-14T12:42:00Z');
export const BY_NIGHT = Date.parse('2026-07-14T01:42:00Z');

export const nowAt = (seconds: number, start: number = BY_DAY): Now => ({
  monotonic: monotonicMillis(1_000_000 + seconds * 1000),
  wall: wallMillis(start + seconds * 1000),
});

/** What a channel does with one message or look: answer after so many seconds, or never. */
export type Conduct =
  | { readonly kind: 'answers'; readonly afterSeconds: number; readonly result: Sent }
  | { readonly kind: 'hangs' };

export interface Begun {
  readonly atSeconds: number;
  readonly channel: string;
  readonly message: Message;
}

export interface Network {
  readonly begun: readonly Begun[];
  readonly heard: readonly (HeraldHeard & { readonly atSeconds: number })[];
  /** The most messages of one channel that were under way at once. */
  readonly most: ReadonlyMap<string, number>;
  readonly ticks: number;
  readonly state: DeliveryState;
}

interface Scheduled {
  readonly atSeconds: number;
  readonly event: DeliveryEvent;
}

/** Drives delivery through so many seconds against channels that behave as told, jumping from moment to moment. */
export const drive = (
  settings: DeliverySettings,
  conduct: (channel: string, atSeconds: number, count: number, asked: 'send' | 'look') => Conduct,
  script: readonly Scheduled[],
  forSeconds: number,
  start: number = BY_DAY,
  from: DeliveryState = freshDelivery(settings, nowAt(0, start)),
): Network => {
  const first: Scheduled = { atSeconds: 0, event: { kind: 'tick' } };
  const queue = [first, ...script].toSorted((a, b) => a.atSeconds - b.atSeconds);
  const under = new Map<number, string>();
  const most = new Map<string, number>();
  const begun: Begun[] = [];
  const heard: (HeraldHeard & { atSeconds: number })[] = [];
  let state = from;
  let at = 0;
  let count = 0;
  let ticks = 0;
  const answer = (channel: string, id: number, asked: 'send' | 'look'): void => {
    const how = conduct(channel, at, count, asked);
    count += 1;
    if (how.kind === 'hangs') return;
    queue.push({ atSeconds: at + how.afterSeconds, event: { kind: 'came', id, result: how.result } });
    queue.sort((a, b) => a.atSeconds - b.atSeconds);
  };
  for (;;) {
    const wake = wakesAt(state, settings, nowAt(at, start));
    const wakeSeconds = wake === null ? Infinity : (wake - 1_000_000) / 1000;
    const next = queue[0];
    const upTo = Math.min(wakeSeconds, next?.atSeconds ?? Infinity);
    if (upTo > forSeconds) return { begun, heard, most, ticks, state };
    at = upTo;
    const event: DeliveryEvent =
      next !== undefined && next.atSeconds <= upTo ? queue.shift()!.event : { kind: 'tick' };
    ticks += 1;
    const after = step(state, settings, event, nowAt(at, start));
    state = after.state;
    if (event.kind === 'came') under.delete(event.id);
    for (const effect of after.effects) {
      if (effect.kind === 'abort') under.delete(effect.id);
      else if (effect.kind === 'heard') heard.push({ ...effect.heard, atSeconds: at });
      else if (effect.kind === 'check') answer(effect.channel, effect.id, 'look');
      else {
        under.set(effect.message.id, effect.channel);
        const running = [...under.values()].filter((name) => name === effect.channel).length;
        most.set(effect.channel, Math.max(most.get(effect.channel) ?? 0, running));
        begun.push({ atSeconds: at, channel: effect.channel, message: effect.message });
        answer(effect.channel, effect.message.id, 'send');
      }
    }
  }
};

export const WELL: Conduct = { kind: 'answers', afterSeconds: 2, result: { kind: 'sent', says: 'taken' } };
export const FAILS: Conduct = {
  kind: 'answers',
  afterSeconds: 1,
  result: { kind: 'failed', why: 'no network', again: 'later' },
};
export const HANGS: Conduct = { kind: 'hangs' };
