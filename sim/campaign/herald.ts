import { DEAD_AFTER_SECONDS } from '../../src/delivery/delivery-bounds.ts';
import type { Call } from '../../src/delivery/call.ts';
import { deadChannels } from '../../src/delivery/channel-health.ts';
import { restarted, type KeptDelivery } from '../../src/delivery/delivery-restart.ts';
import {
  freshDelivery,
  type DeliveryEffect,
  type DeliveryEvent,
  type DeliverySettings,
  type DeliveryState,
} from '../../src/delivery/delivery-state.ts';
import { step, wakesAt } from '../../src/delivery/delivery.ts';
import type { HeraldHeard } from '../../src/delivery/heard.ts';
import type { Form, Message } from '../../src/delivery/message.ts';
import type { DeadChannel } from '../../src/ports/host-health.ts';
import type { Now } from '../../src/time/instant.ts';
import type { Try } from '../oracle/record.ts';
import { awayMinutes } from './reborn.ts';
import type { Answer } from './ways-out.ts';

/** What a herald of the campaign needs of its world. */
export interface HeraldWorld {
  readonly settings: DeliverySettings;
  readonly clocks: (atMillis: number) => Now;
  readonly ask: (asked: {
    readonly channel: string;
    readonly what: Form | 'check';
    readonly atMillis: number;
  }) => Answer;
  /** Every try that was made with a message, as it truly went. */
  readonly tries: Try[];
  /** When each call was made. */
  readonly called: Map<string, number>;
}

interface Coming {
  readonly atMillis: number;
  readonly id: number;
  readonly event: Extract<DeliveryEvent, { kind: 'came' | 'tell' }>;
}

/** What is the same of a call and of the message that carries it: the time left of that is of its own moment. */
const saidBy = ({ alarm, kind, text }: Call): string => JSON.stringify([alarm, kind, text]);

/** The host's delivery before virtual channels, under a clock that only this turns on. */
export class Herald {
  nowMillis: number;
  readonly #world: HeraldWorld;
  readonly #heard: HeraldHeard[] = [];
  readonly #messages = new Map<number, number>();
  #state: DeliveryState;
  #coming: readonly Coming[] = [];
  #nextMillis: number;

  constructor(world: HeraldWorld, kept: KeptDelivery | null, bornMillis: number) {
    const { settings, clocks } = world;
    this.#world = world;
    this.nowMillis = bornMillis;
    this.#nextMillis = bornMillis;
    this.#state =
      kept === null
        ? freshDelivery(settings, clocks(bornMillis))
        : restarted(
            { ...kept, awayMinutes: awayMinutes(kept.at, clocks(bornMillis)) },
            settings,
            clocks(bornMillis),
          );
  }

  nextMillis(): number {
    return Math.max(this.nowMillis, this.#nextMillis);
  }

  /** `lateMillis` later than it is asked, where it has a defect. */
  tell(call: Call, lateMillis: number): void {
    this.#world.called.set(saidBy(call), this.nowMillis);
    const event = { kind: 'tell', call } as const;
    if (lateMillis === 0) this.#happen(event);
    else this.#comes({ atMillis: this.nowMillis + lateMillis, id: 0, event });
  }

  /** Goes on to this moment, with whatever is due then. */
  until(millis: number): void {
    while (this.nextMillis() <= millis) {
      this.nowMillis = this.nextMillis();
      const next = this.#coming.find(({ atMillis }) => atMillis <= this.nowMillis);
      if (next !== undefined) this.#coming = this.#coming.filter((one) => one !== next);
      this.#happen(next?.event ?? { kind: 'tick' });
    }
    this.nowMillis = Math.max(this.nowMillis, millis);
  }

  heard(): readonly HeraldHeard[] {
    return this.#heard.splice(0);
  }

  dead(): readonly DeadChannel[] {
    return deadChannels(this.#state, this.#world.clocks(this.nowMillis).monotonic);
  }

  kept(): KeptDelivery {
    return { state: this.#state, at: this.#world.clocks(this.nowMillis) };
  }

  #happen(event: DeliveryEvent): void {
    const { settings, clocks } = this.#world;
    const now = clocks(this.nowMillis);
    if (event.kind === 'came') this.#ended(event.id, event.result.kind === 'sent' ? 'reached' : 'failed');
    const after = step(this.#state, settings, event, now);
    this.#state = after.state;
    for (const effect of after.effects) this.#carryOut(effect);
    const deaths = Object.values(this.#state.health).flatMap(({ since }) =>
      since === null ? [] : [since + 1000 * DEAD_AFTER_SECONDS],
    );
    const wakes = [wakesAt(this.#state, settings, now) ?? Infinity, ...deaths].filter(
      (moment) => moment > now.monotonic,
    );
    // As a timer, no sooner than in a millisecond: what is less than the date can tell would never come.
    const afterMillis = Math.max(1, Math.min(...wakes, Infinity) - now.monotonic);
    this.#nextMillis = Math.min(
      this.nowMillis + afterMillis,
      ...this.#coming.map(({ atMillis }) => atMillis),
    );
  }

  #carryOut(effect: DeliveryEffect): void {
    switch (effect.kind) {
      case 'heard':
        this.#heard.push(effect.heard);
        return;
      case 'abort':
        this.#ended(effect.id, 'failed');
        this.#coming = this.#coming.filter(({ id }) => id !== effect.id);
        return;
      case 'check':
        this.#ask(effect.channel, 'check', effect.id);
        return;
      case 'send':
        this.#sent(effect.channel, effect.message);
    }
  }

  #sent(channel: string, { id, form, to, call }: Message): void {
    const { tries, called } = this.#world;
    this.#messages.set(id, tries.length);
    tries.push({
      channel,
      form,
      person: to?.name ?? null,
      alarm: call?.alarm ?? null,
      kind: call?.kind ?? null,
      priority: call?.priority ?? null,
      calledMillis: (call === null ? undefined : called.get(saidBy(call))) ?? this.nowMillis,
      fromMillis: this.nowMillis,
      endMillis: null,
      outcome: 'failed',
    });
    this.#ask(channel, form, id);
  }

  #ended(id: number, outcome: Try['outcome']): void {
    const { tries } = this.#world;
    const place = this.#messages.get(id);
    const one = place === undefined ? undefined : tries[place];
    if (place === undefined || one === undefined || !this.#messages.delete(id)) return;
    tries[place] = { ...one, endMillis: this.nowMillis, outcome };
  }

  #ask(channel: string, what: Form | 'check', id: number): void {
    const answer = this.#world.ask({ channel, what, atMillis: this.nowMillis });
    if (answer === 'never') return;
    const { afterMillis, result } = answer;
    const event = { kind: 'came', id, result } as const;
    this.#comes({ atMillis: this.nowMillis + afterMillis, id, event });
  }

  #comes(coming: Coming): void {
    this.#coming = [...this.#coming, coming].toSorted((one, other) => one.atMillis - other.atMillis);
    this.#nextMillis = Math.min(this.#nextMillis, coming.atMillis);
  }
}
