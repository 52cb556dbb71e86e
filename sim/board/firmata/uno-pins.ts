import { PIN_MODE, type PinMode } from './bytes.ts';

export interface Ability {
  readonly mode: PinMode;
  /** Bits of resolution: 1 for digital modes. */
  readonly resolution: number;
}

export interface PinSpec {
  /** In the order of the capability response; empty for a reserved pin. */
  readonly abilities: readonly Ability[];
  readonly analogChannel: number | null;
}

/** Place in the list is the number of the pin. */
export type PinTable = readonly PinSpec[];

const UNO_PINS = 20;
/** D0 and D1 are the serial line to the host. */
const FIRST_FREE_PIN = 2;
/** A0 is pin 14. */
const FIRST_ANALOG_PIN = 14;
/** Outputs of the three timers (ATmega328P datasheet: OC2B, OC0B, OC0A, OC1A, OC1B, OC2A). */
const PWM_PINS: readonly number[] = [3, 5, 6, 9, 10, 11];
const ADC_BITS = 10;
const PWM_BITS = 8;

const digital: readonly Ability[] = [
  { mode: PIN_MODE.input, resolution: 1 },
  { mode: PIN_MODE.pullUp, resolution: 1 },
  { mode: PIN_MODE.output, resolution: 1 },
];

const unoPin = (pin: number): PinSpec => {
  if (pin < FIRST_FREE_PIN) return { abilities: [], analogChannel: null };
  const analogChannel = pin < FIRST_ANALOG_PIN ? null : pin - FIRST_ANALOG_PIN;
  const abilities = [
    ...digital,
    ...(analogChannel === null ? [] : [{ mode: PIN_MODE.analog, resolution: ADC_BITS }]),
    ...(PWM_PINS.includes(pin) ? [{ mode: PIN_MODE.pwm, resolution: PWM_BITS }] : []),
  ];
  return { abilities, analogChannel };
};

/**
 * A board with an ATmega328P in its 28-pin case, as the Uno is numbered: A0..A5 are pins 14..19. Servo and
 * two-wire modes, which stock firmware offers as well, are left out.
 */
export const UNO_PIN_TABLE: PinTable = Array.from({ length: UNO_PINS }, (_, pin) => unoPin(pin));
