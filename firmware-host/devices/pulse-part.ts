import type { Wiring } from '../../src/farm/farm.ts';
import { pulsesPerMinute, withPulse, type Pulses } from '../../src/sense/pulse-rate.ts';
import type { ContactPart } from './contact-part.ts';
import type { Fitting } from './fitting.ts';

type PulseMeter = Extract<NonNullable<Wiring['returnFlow']>, { pulsesPerLitre: number }>;

/** A flow meter that closes a contact to ground for every so many millilitres. */
export const pulsePart = (
  { io, timers, take }: Fitting,
  { pin, pulsesPerLitre }: PulseMeter,
): ContactPart => {
  let pulses: Pulses = [];
  let level: number | null = null;
  let answered = false;
  io.pinMode(pin, io.MODES.PULLUP);
  io.digitalRead(pin, (value) => {
    answered = true;
    if (level === 1 && value === 0) pulses = withPulse(pulses, timers.now());
    level = value;
  });
  return {
    poll: () => {
      const at = timers.now();
      if (answered) {
        const litresPerMinute = pulsesPerMinute(pulses, at) / pulsesPerLitre;
        take({ at, channel: 'return-flow', litresPerMinute });
      }
      answered = false;
      io.pinMode(pin, io.MODES.PULLUP);
      io.reportDigitalPin(pin, 1);
    },
  };
};
