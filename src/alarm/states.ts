/**
 * The states of IEC 62682 that an alarm may have here; a normal alarm is one that is not in the list. Returned means:
 * the condition has gone, and nobody has said that they saw it. Shelved is what a person has put off, with an end.
 * There is no "out of service": what is not fitted is left out of the farm file, and raises nothing.
 */
export type AlarmState =
  'active-unacknowledged' | 'active-acknowledged' | 'returned-unacknowledged' | 'shelved';

/** What may happen to one alarm, after deadband and shelf time have been worked out. */
export type Happens =
  | 'stands'
  /** It stands, and is worse than when it was last looked at. */
  | 'got-graver'
  | 'gone'
  | 'acknowledged'
  | 'shelved'
  | 'shelf-ends-standing'
  | 'shelf-ends-gone';

export type Tells = 'raised' | 'returned' | 'acknowledged' | 'shelved' | 'unshelved';

export interface Transition {
  readonly to: AlarmState | 'normal';
  /** What is told of it, in this order. */
  readonly tells: readonly Tells[];
}

const stays = (to: AlarmState | 'normal'): Transition => ({ to, tells: [] });
const goes = (to: AlarmState | 'normal', ...tells: readonly Tells[]): Transition => ({ to, tells });

/** Only a person leads out of an unacknowledged state, and only a condition that has gone leads out of an active one. */
export const TRANSITIONS: Readonly<Record<AlarmState | 'normal', Readonly<Record<Happens, Transition>>>> = {
  normal: {
    stands: goes('active-unacknowledged', 'raised'),
    'got-graver': goes('active-unacknowledged', 'raised'),
    gone: stays('normal'),
    acknowledged: stays('normal'),
    shelved: stays('normal'),
    'shelf-ends-standing': stays('normal'),
    'shelf-ends-gone': stays('normal'),
  },
  'active-unacknowledged': {
    stands: stays('active-unacknowledged'),
    'got-graver': goes('active-unacknowledged', 'raised'),
    gone: goes('returned-unacknowledged', 'returned'),
    acknowledged: goes('active-acknowledged', 'acknowledged'),
    shelved: goes('shelved', 'shelved'),
    'shelf-ends-standing': stays('active-unacknowledged'),
    'shelf-ends-gone': stays('active-unacknowledged'),
  },
  'active-acknowledged': {
    stands: stays('active-acknowledged'),
    'got-graver': goes('active-unacknowledged', 'raised'),
    gone: goes('normal', 'returned'),
    acknowledged: stays('active-acknowledged'),
    shelved: goes('shelved', 'shelved'),
    'shelf-ends-standing': stays('active-acknowledged'),
    'shelf-ends-gone': stays('active-acknowledged'),
  },
  'returned-unacknowledged': {
    stands: goes('active-unacknowledged', 'raised'),
    'got-graver': goes('active-unacknowledged', 'raised'),
    gone: stays('returned-unacknowledged'),
    acknowledged: goes('normal', 'acknowledged'),
    shelved: stays('returned-unacknowledged'),
    'shelf-ends-standing': stays('returned-unacknowledged'),
    'shelf-ends-gone': stays('returned-unacknowledged'),
  },
  shelved: {
    stands: stays('shelved'),
    'got-graver': goes('active-unacknowledged', 'unshelved', 'raised'),
    // It keeps its place until the shelf ends: whoever put it off sees what became of it.
    gone: stays('shelved'),
    acknowledged: stays('shelved'),
    shelved: goes('shelved', 'shelved'),
    'shelf-ends-standing': goes('active-unacknowledged', 'unshelved', 'raised'),
    'shelf-ends-gone': goes('normal', 'unshelved', 'returned'),
  },
};
