/** What stands where in the setup block: docs/board-protocol.md, "Setup". */

/** One number of a part, and the key of the farm file that gives it. */
export interface SetupField {
  readonly at: number;
  readonly bytes: 1 | 2;
  readonly key: string;
  /** The number in words: "on pin 7". */
  readonly says: (value: number) => string;
}

/** Numbers that belong together: of a part that is not fitted nothing but that is worth saying. */
export interface SetupPart {
  readonly name: string;
  readonly key: string;
  /** Null for what is always there. */
  readonly fitted: { readonly at: number; readonly none: number } | null;
  readonly fields: readonly SetupField[];
}

const NONE = 0xff;

const named =
  (...names: readonly string[]) =>
  (value: number): string =>
    names[value] ?? `number ${value}`;
const onPin = (value: number): string => `on pin ${value}`;
const onChannel = (value: number): string => `on pin A${value}`;
const seconds = (value: number): string => `${value} s`;
const counts = (value: number): string => `${value} counts`;

const field = (at: number, key: string, says: SetupField['says']): SetupField => ({
  at,
  bytes: 1,
  key,
  says,
});
const wide = (at: number, key: string, says: SetupField['says']): SetupField => ({ at, bytes: 2, key, says });

const contact = (name: string, key: string, at: number, while1: string): SetupPart => ({
  name,
  key,
  fitted: { at, none: NONE },
  fields: [
    field(at, `${key}.pin`, onPin),
    field(at + 1, `${key}.reads`, (level) => `reading ${named('low', 'high')(level)} while ${while1}`),
  ],
});
const onePin = (name: string, key: string, at: number): SetupPart => ({
  name,
  key,
  fitted: { at, none: NONE },
  fields: [field(at, key, onPin)],
});

/** Pin of the current sensor: a contact has a digital one, an analog sensor a channel. Either way the file names it. */
const currentPin = (value: number): string => `on pin or channel ${value}`;

export const SETUP_PARTS: readonly SetupPart[] = [
  {
    name: 'the dead-board choice',
    key: 'deadBoard',
    fitted: null,
    fields: [field(1, 'deadBoard', named('pump-stops', 'pump-runs', 'plain-timer'))],
  },
  {
    name: 'a relay',
    key: 'board.relay',
    fitted: null,
    fields: [
      field(2, 'board.relay.pin', onPin),
      field(3, 'board.relay.energised', (level) => `pulled by ${named('low', 'high')(level)}`),
    ],
  },
  {
    name: 'a longest run of',
    key: 'pump.longestOnMinutes',
    fitted: null,
    fields: [wide(4, 'pump.longestOnMinutes', seconds)],
  },
  {
    name: 'a shortest stop of',
    key: 'pump.shortestOffSeconds',
    fitted: null,
    fields: [wide(6, 'pump.shortestOffSeconds', seconds)],
  },
  {
    name: 'a return sensor',
    key: 'board.returnFlow',
    fitted: { at: 8, none: 0 },
    fields: [
      field(8, 'board.returnFlow', named('none', 'of the kind switch', 'of the kind meter')),
      field(9, 'board.returnFlow.pin', onPin),
      field(
        10,
        'board.returnFlow.reads',
        (level) => `reading ${named('low', 'high')(level)} while water runs`,
      ),
      field(11, 'board.returnFlow.pulsesPerLitre', (pulses) => `showing water by ${pulses} pulses in 15 s`),
    ],
  },
  {
    name: 'a pump current sensor',
    key: 'board.pumpCurrent',
    fitted: { at: 12, none: 0 },
    fields: [
      field(12, 'board.pumpCurrent', named('none', 'of the kind contact', 'of the kind analog')),
      field(13, 'board.pumpCurrent.pin', currentPin),
      field(
        14,
        'board.pumpCurrent.reads',
        (level) => `reading ${named('low', 'high')(level)} while it draws`,
      ),
      wide(15, 'board.pumpCurrent.drawsAboveCounts', (value) => `drawing above ${counts(value)}`),
    ],
  },
  contact('a tank float', 'board.tankFloat', 17, 'the tank is low'),
  contact('a relay read-back', 'board.relayReadBack', 19, 'the relay is closed'),
  contact('a mains contact', 'board.mainsPresent', 21, 'mains are there'),
  contact('a leak sensor', 'board.leakSensor', 23, 'it is wet'),
  contact('an overflow float', 'board.overflowFloat', 25, 'it is wet'),
  onePin('a buzzer', 'board.buzzer', 27),
  onePin('a lamp', 'board.lamp', 28),
  onePin('a button', 'board.button', 29),
  {
    name: 'an air thermistor',
    key: 'board.airThermistor',
    fitted: { at: 30, none: NONE },
    fields: [
      field(30, 'board.airThermistor.pin', onChannel),
      field(
        31,
        'board.airThermistor.wired',
        named('with counts that fall with heat', 'with counts that rise with heat'),
      ),
      wide(32, 'board.airThermistor', (value) => `hot from ${counts(value)} on`),
    ],
  },
  {
    name: 'a bare probe',
    key: 'board.probe',
    fitted: { at: 34, none: NONE },
    fields: [
      field(34, 'board.probe.pin', onChannel),
      field(35, 'board.probe', (pin) => `driven from pin ${pin}`),
      field(36, 'board.probe', (pin) => `driven back from pin ${pin}`),
    ],
  },
];
