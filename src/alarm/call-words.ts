import { cardText, type AlarmKind, type Card } from './card.ts';

/** Each alarm in two or three words, for a list. */
export const ALARM_NAMES: Readonly<Record<AlarmKind, string>> = {
  'missed-flood': 'missed flood',
  'weak-flow': 'weak flood',
  'mains-lost': 'mains lost',
  'pump-runs-on': 'pump runs on',
  'tank-low': 'tank low',
  'float-suspect': 'tank float in doubt',
  'water-on-floor': 'water on the floor',
  'flow-sensor-silent': 'flow sensor silent',
  'flow-sensor-stuck': 'flow sensor stuck',
  'clock-stepped': 'clock has jumped',
  'no-good-temperature': 'no good temperature',
  'hold-is-long': 'long hold',
  'drying-out': 'benches drying',
  'board-silent': 'board silent',
  'channel-dead': 'a way to call is dead',
  'not-recording': 'not recording',
  'safe-mode': 'safe mode',
  'clock-drift': 'clocks drift apart',
};

const named = (kinds: readonly AlarmKind[]): string => kinds.map((kind) => ALARM_NAMES[kind]).join(', ');

export interface CallFacts {
  readonly kind: 'raised' | 'again' | 'escalated' | 'returned';
  readonly card: Card;
  /** Alarms that this call speaks for besides its own. */
  readonly also: readonly AlarmKind[];
  /** Alarms that are over besides. */
  readonly over: readonly AlarmKind[];
  /** The alarm among them that came first, where it was not this one. */
  readonly first: AlarmKind | null;
  readonly comesAndGoes: 'yes' | 'no';
}

/** How a call opens: whoever hears it must know whether it is new. */
const OPENINGS: Readonly<Record<CallFacts['kind'], string>> = {
  raised: '',
  again: 'Still so: ',
  escalated: 'Nobody has answered yet: ',
  returned: 'Over: ',
};

/** A call as one message: what, until when, what to do first, and what else it stands for. */
export const callText = ({ kind, card, also, over, first, comesAndGoes }: CallFacts): string => {
  const body = kind === 'returned' ? `${ALARM_NAMES[card.kind]}.` : cardText(card);
  const tails = [
    comesAndGoes === 'yes' ? 'It comes and goes.' : null,
    also.length === 0 ? null : `${kind === 'returned' ? 'Still so' : 'With it'}: ${named(also)}.`,
    over.length === 0 ? null : `Over: ${named(over)}.`,
    first === null ? null : `First came: ${named([first])}.`,
  ].filter((tail) => tail !== null);
  return [`${OPENINGS[kind]}${body}`, ...tails].join(' ');
};
