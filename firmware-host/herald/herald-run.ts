import { wallMillis, type MonotonicMillis, type Now } from '../../src/time/instant.ts';
import type { Call } from '../../src/delivery/call.ts';
import { deadChannels } from '../../src/delivery/channel-health.ts';
import { failed, type Sent } from '../../src/delivery/message.ts';
import type { Channel } from './channel.ts';
import type { TextCame } from './gsm/gsm-inbox.ts';
import {
  freshDelivery,
  type DeliveryEffect,
  type DeliveryEvent,
  type DeliverySettings,
  type DeliveryState,
} from '../../src/delivery/delivery-state.ts';
import { restarted, type KeptDelivery, type LeftDelivery } from '../../src/delivery/delivery-restart.ts';
import { step, wakesAt } from '../../src/delivery/delivery.ts';
import type { HeraldHeard } from '../../src/delivery/heard.ts';
import type { LanguageCode } from '../../src/farm/languages-spoken.ts';
import type { DeadChannel } from '../../src/ports/host-health.ts';
import type { Rota } from '../../src/delivery/rota.ts';

export interface HeraldRunAsked {
  readonly rota: Rota;
  readonly language: LanguageCode;
  readonly channels: readonly Channel[];
  readonly left: LeftDelivery | null;
  readonly heard: (heard: HeraldHeard) => void;
  readonly dead: (dead: readonly DeadChannel[]) => void;
  /** Called after each change; whoever writes it down takes his time. */
  readonly changed: (delivery: KeptDelivery) => void;
  /** Takes secrets out of whatever is told. */
  readonly hidden: (text: string) => string;
  readonly clockIsKnown: () => boolean;
  readonly monotonic: () => MonotonicMillis;
}

export interface HeraldRun {
  readonly tell: (call: Call) => void;
  readonly says: (sentence: string) => void;
  readonly textCame: (channel: string, came: TextCame) => void;
  readonly close: () => Promise<void>;
}

/** A timer of Node fires at once beyond 24.8 days; and a look now and then costs nothing. */
const TIMER_MILLIS_MAX = 60_000;

/** Drives the state machine with real channels and the clock of this process. */
export const runHerald = (asked: HeraldRunAsked): HeraldRun => {
  const settings: DeliverySettings = {
    rota: asked.rota,
    language: asked.language,
    channels: asked.channels.map(({ name, forms, most, check }) => ({
      name,
      forms,
      most,
      checks: check === null ? 'no' : 'yes',
    })),
  };
  const byName = new Map(asked.channels.map((channel) => [channel.name, channel]));
  const under = new Map<number, AbortController>();
  let timer: NodeJS.Timeout | undefined;
  let closed = false;
  let toldDead = '[]';

  const now = (): Now => ({
    monotonic: asked.monotonic(),
    wall: asked.clockIsKnown() ? wallMillis(Date.now()) : 'unknown',
  });
  let state: DeliveryState =
    asked.left === null ? freshDelivery(settings, now()) : restarted(asked.left, settings, now());

  const begin = (id: number, work: (signal: AbortSignal) => Promise<Sent>): void => {
    const stop = new AbortController();
    under.set(id, stop);
    // A channel that throws has a defect; for delivery it has failed, and the next attempt or channel goes on.
    void work(stop.signal)
      .catch((error: unknown) =>
        failed(`a defect of the channel: ${error instanceof Error ? error.message : String(error)}`),
      )
      .then((result) => {
        under.delete(id);
        const safe: Sent = result.kind === 'failed' ? { ...result, why: asked.hidden(result.why) } : result;
        happen({ kind: 'came', id, result: safe });
      });
  };
  const carryOut = (effect: DeliveryEffect): void => {
    switch (effect.kind) {
      case 'heard':
        asked.heard(effect.heard);
        return;
      case 'abort':
        under.get(effect.id)?.abort();
        under.delete(effect.id);
        return;
      case 'send': {
        const { message } = effect;
        begin(message.id, (signal) => byName.get(effect.channel)?.send(message, signal) ?? gone());
        return;
      }
      case 'check':
        begin(effect.id, (signal) => byName.get(effect.channel)?.check?.(signal) ?? gone());
    }
  };
  const gone = (): Promise<Sent> => Promise.resolve(failed('there is no such channel'));

  const happen = (event: DeliveryEvent): void => {
    if (closed) return;
    const at = now();
    const before = state;
    const after = step(state, settings, event, at);
    state = after.state;
    for (const effect of after.effects) carryOut(effect);
    const dead = deadChannels(state, at.monotonic);
    const words = JSON.stringify(dead);
    if (words !== toldDead) {
      toldDead = words;
      asked.dead(dead);
    }
    if (state.jobs !== before.jobs) asked.changed({ state, at });
    clearTimeout(timer);
    const wake = wakesAt(state, settings, at);
    const millis = wake === null ? TIMER_MILLIS_MAX : wake - at.monotonic + 1;
    timer = setTimeout(
      () => {
        happen({ kind: 'tick' });
      },
      Math.min(millis, TIMER_MILLIS_MAX),
    );
  };

  happen({ kind: 'tick' });
  return {
    tell: (call) => {
      happen({ kind: 'tell', call });
    },
    says: (sentence) => {
      happen({ kind: 'says', sentence });
    },
    textCame: (channel, came) => {
      happen({ kind: 'text-came', channel, ...came });
    },
    close: async () => {
      closed = true;
      clearTimeout(timer);
      for (const stop of under.values()) stop.abort();
      await Promise.all(asked.channels.map((channel) => channel.close()));
    },
  };
};
