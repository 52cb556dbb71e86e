import type { LanguageCode } from '../farm/languages-spoken.ts';
import type { MonotonicMillis, Now, WallMillis } from '../time/instant.ts';
import type { Call } from './call.ts';
import type { Form, Message, Sent } from './message.ts';
import type { HeraldHeard } from './heard.ts';
import type { Rota } from './rota.ts';
import type { Told } from './told.ts';

/** One form of one call to one person, through one channel. */
export interface Errand {
  readonly id: number;
  readonly form: Form;
  readonly channel: string;
  /** Nobody in particular for a posting. */
  readonly person: string | null;
  readonly tries: number;
  /** Of those, how often the phone at the other end was rung and did not ring, or was busy. */
  readonly ringsInVain: number;
  /** Not tried before; while it is under way, when it was begun. */
  readonly dueAt: MonotonicMillis;
  /** When the attempt under way is taken for hung; null while it waits. */
  readonly endsAt: MonotonicMillis | null;
}

export interface Job {
  readonly id: number;
  /** A newer job of the same key takes the place of what still waits. */
  readonly key: string;
  /** 0 is the most urgent. */
  readonly rank: number;
  /** Null for the answer to a text that came in. */
  readonly call: Call | null;
  /** What an answer says; null: the newest sentence of the host. */
  readonly text: string | null;
  /** What is said before the sentence of an answer; null where nothing is. */
  readonly opening: string | null;
  /** When the controller made the call, or somebody wrote. */
  readonly madeAt: MonotonicMillis;
  readonly untilAt: MonotonicMillis;
  /** A newer job has taken its place: only what is under way is left of it. */
  readonly replaced: boolean;
  readonly errands: readonly Errand[];
  /** Names of who has been called so far, in order. */
  readonly called: readonly string[];
  /** Of those, to whom something went out. */
  readonly reached: readonly string[];
  /** Who comes next, and when at the latest; empty where there is no next. */
  readonly next: readonly string[];
  readonly nextAt: MonotonicMillis;
}

/** What is known of a channel. */
export interface Health {
  readonly failures: number;
  readonly why: string;
  /** Of the first failure in a row; null while it is well. */
  readonly since: MonotonicMillis | null;
  /** What shows that it is well again: one that has refused an address answers looks all the same. */
  readonly wellBy: 'look' | 'send';
  readonly checkAt: MonotonicMillis;
  /** The look under way. */
  readonly checking: { readonly id: number; readonly endsAt: MonotonicMillis } | null;
}

/** One answer to the text of a person, and when it went or goes; `hint`: what is understood, to whoever wrote something else. */
export interface Answered {
  readonly kind: 'state' | 'hint';
  readonly at: MonotonicMillis;
}

/** Plain data: what is written down comes back after a restart. */
export interface DeliveryState {
  readonly nextId: number;
  /** Oldest first. */
  readonly jobs: readonly Job[];
  readonly health: Readonly<Record<string, Health>>;
  /** By the name of the person, those of the last 24 h, oldest first. */
  readonly answered: Readonly<Record<string, readonly Answered[]>>;
  /** To whom each alarm was carried. */
  readonly told: readonly Told[];
  /** What the host last said of itself. */
  readonly sentence: { readonly text: string; readonly at: MonotonicMillis } | null;
}

/** A channel as far as delivery knows it. */
export interface ChannelTraits {
  readonly name: string;
  readonly forms: readonly Form[];
  readonly most: number;
  readonly checks: 'yes' | 'no';
}

export interface DeliverySettings {
  readonly language: LanguageCode;
  readonly rota: Rota;
  readonly channels: readonly ChannelTraits[];
}

export type DeliveryEvent =
  | { readonly kind: 'tell'; readonly call: Call }
  | { readonly kind: 'says'; readonly sentence: string }
  /** What came of the attempt or the look of this number. */
  | { readonly kind: 'came'; readonly id: number; readonly result: Sent }
  | {
      readonly kind: 'text-came';
      readonly channel: string;
      readonly from: string;
      readonly text: string;
      /** When the network took it; undefined where nobody can read that. */
      readonly sentAt?: WallMillis | undefined;
    }
  | { readonly kind: 'tick' };

export type DeliveryEffect =
  | { readonly kind: 'send'; readonly channel: string; readonly message: Message }
  | { readonly kind: 'check'; readonly channel: string; readonly id: number }
  /** What comes of it is not waited for any more. */
  | { readonly kind: 'abort'; readonly id: number }
  | { readonly kind: 'heard'; readonly heard: HeraldHeard };

export interface Delivered {
  readonly state: DeliveryState;
  readonly effects: readonly DeliveryEffect[];
}

export const isUnderWay = ({ endsAt }: Errand): boolean => endsAt !== null;

export const freshDelivery = ({ channels }: DeliverySettings, { monotonic }: Now): DeliveryState => ({
  nextId: 1,
  jobs: [],
  health: Object.fromEntries(
    channels.map(({ name }) => [
      name,
      {
        failures: 0,
        why: '',
        since: null,
        wellBy: 'look',
        checkAt: monotonic,
        checking: null,
      } satisfies Health,
    ]),
  ),
  answered: {},
  told: [],
  sentence: null,
});
