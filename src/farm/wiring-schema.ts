import { z } from 'zod';

/**
 * Which pin of the board carries what. Pins 0 and 1 are the serial line and 13 blinks while the board starts,
 * so none of them may carry anything.
 */
const digitalPin = z.number().int().min(2).max(12).describe('digital pin 2 to 12');
const analogPin = z.enum(['A0', 'A1', 'A2', 'A3', 'A4', 'A5', 'A6', 'A7']).describe('analog pin A0 to A7');

const contact = z.strictObject({
  pin: digitalPin,
  reads: z
    .enum(['low', 'high'])
    .default('low')
    .describe('level while the thing is so: low for a contact to ground, which needs no resistor'),
});

const pulseMeter = z.strictObject({
  pin: digitalPin,
  pulsesPerLitre: z.number().min(0.05).max(10_000).describe('from the label of the meter'),
});

const betaCurve = { ohmsAt25: z.number().min(1000).max(200_000), betaKelvin: z.number().min(2500).max(5000) };

const thermistor = z.strictObject({
  pin: analogPin,
  ohmsAt25: betaCurve.ohmsAt25.default(10_000).describe('as the seller prints it'),
  betaKelvin: betaCurve.betaKelvin.default(3950).describe('B between 25 and 50 °C, as the seller prints it'),
  steinhartHart: z
    .strictObject({
      a: z.number().min(-0.01).max(0.01),
      b: z.number().min(1e-6).max(0.01),
      c: z.number().min(-1e-5).max(1e-5),
    })
    .optional()
    .describe(
      '1/T = a + b ln R + c (ln R)³, from the maker or from three points; wins over ohmsAt25 and betaKelvin',
    ),
  fixedOhms: z.number().min(500).max(500_000).default(10_000).describe('the resistor in series with it'),
  wired: z
    .enum(['to-ground', 'to-reference'])
    .default('to-ground')
    .describe('where the thermistor stands; the resistor takes the other side'),
});

const counts = z.number().int().min(5).max(1018);
const currentSensor = z.strictObject({
  pin: analogPin,
  drawsAboveCounts: counts.describe('counts of 1023 above which the pump draws current'),
});

const litresSensor = z.strictObject({
  pin: analogPin,
  litresAtZero: z.number().min(-100_000).max(100_000).describe('litres in the tank at 0 counts'),
  litresAtFullScale: z.number().min(-100_000).max(100_000).describe('litres in the tank at 1023 counts'),
});

const humiditySensor = z.strictObject({
  pin: analogPin,
  percentAtZero: z.number().min(-100).max(200).default(0).describe('relative humidity at 0 counts'),
  percentAtFullScale: z.number().min(-100).max(200).default(100).describe('relative humidity at 1023 counts'),
});

const compensated = {
  compensation: z
    .enum(['linear', 'natural-water'])
    .default('linear')
    .describe(
      'to 25 °C: linear for a tank with salts, natural-water (ISO 7888) for rain, borehole or tap water',
    ),
  percentPerKelvin: z.number().min(0).max(3).default(2).describe('of the linear compensation'),
};

const probeModule = z.strictObject({
  pin: analogPin,
  fullScaleMicrosiemensPerCm: z
    .number()
    .min(500)
    .max(50_000)
    .describe('conductivity at which the module would give full scale'),
  ...compensated,
});

const bareProbe = z.strictObject({
  pin: analogPin.describe('analog pin between the resistor and the cell'),
  drivenBy: z
    .tuple([digitalPin, digitalPin])
    .describe('the two digital pins between which resistor, capacitor and cell lie; own firmware only'),
  seriesOhms: z
    .number()
    .min(1)
    .max(100_000)
    .default(1000)
    .describe('the resistor in series with the cell, at least 470'),
  cellPerCm: z.number().min(0.05).max(20).default(1).describe('cell constant K, 1/cm'),
  ...compensated,
});

/** The wiring of one board. Whether it agrees with the rest of the farm file is for `wiring-checks`. */
export const wiringSchema = z.strictObject({
  identity: z
    .string()
    .trim()
    .min(1)
    .max(64)
    .optional()
    .describe('USB serial number or firmware name of this board; no other one is driven'),
  relay: z.strictObject({
    pin: digitalPin,
    energised: z.enum(['high', 'low']).default('high').describe('level that pulls the relay'),
  }),
  returnFlow: z.union([contact, pulseMeter]).optional(),
  pumpCurrent: z.union([currentSensor, contact]).optional(),
  relayReadBack: contact.optional(),
  tankLevel: litresSensor.optional(),
  tankFloat: contact.optional(),
  leakSensor: contact.optional(),
  overflowFloat: contact.optional(),
  mainsPresent: contact
    .optional()
    .describe('closed while the supply of the pump has its mains, so that a cut cable reads as lost'),
  airThermistor: thermistor.optional(),
  waterThermistor: thermistor.optional(),
  humidity: humiditySensor.optional(),
  probe: z
    .union([probeModule, bareProbe])
    .optional()
    .describe('a module with an analog output, or a bare cell that the board drives itself'),
  buzzer: digitalPin.optional().describe('an active buzzer: sounds while the pin is high'),
  lamp: digitalPin.optional().describe('lights while the pin is high'),
  button: digitalPin.optional().describe('to ground; a short press floods now, a long one holds'),
});
