import { z } from 'zod';
import { BENCHES_MAX, DAY_PARTS_MAX, farmSchema, NEXT_MAX } from './schema.ts';
import { wiringSchema } from './wiring-schema.ts';

/**
 * The farm file as far as it can be read: what does not fit is `undefined`, and the rest stands. The checks
 * that compare one value with another work on this, so that one bad number hides no other problem. Of a list
 * that is too long nothing is read.
 */
const softly = <Schema extends z.ZodType>(schema: Schema): z.ZodCatch<z.ZodOptional<Schema>> =>
  schema.optional().catch(undefined);

const { shape } = farmSchema;
const bench = shape.benches.element.shape;
const part = shape.dayPlan.element.shape;

const readableNext = z.object({
  on: softly(bench.sown),
  crop: softly(bench.crop),
  sown: softly(bench.sown),
});

const readableBench = z.object({
  name: softly(bench.name),
  litresPerMinute: softly(bench.litresPerMinute),
  liftMetres: softly(bench.liftMetres),
  crop: softly(bench.crop),
  sown: softly(bench.sown),
  plants: softly(bench.plants),
  next: z.array(readableNext.catch({})).max(NEXT_MAX).catch([]),
});

const readablePart = z.object({
  part: softly(part.part),
  from: softly(part.from),
  to: softly(part.to),
  floods: softly(part.floods),
  restMinutes: softly(part.restMinutes),
  floodMinutes: softly(part.floodMinutes),
});

const wiring = wiringSchema.shape;
const readableBoard = z.object({
  relay: softly(wiring.relay),
  returnFlow: softly(wiring.returnFlow),
  pumpCurrent: softly(wiring.pumpCurrent),
  relayReadBack: softly(wiring.relayReadBack),
  tankLevel: softly(wiring.tankLevel),
  tankFloat: softly(wiring.tankFloat),
  leakSensor: softly(wiring.leakSensor),
  overflowFloat: softly(wiring.overflowFloat),
  mainsPresent: softly(wiring.mainsPresent),
  airThermistor: softly(wiring.airThermistor),
  waterThermistor: softly(wiring.waterThermistor),
  humidity: softly(wiring.humidity),
  probe: softly(wiring.probe),
  buzzer: softly(wiring.buzzer),
  lamp: softly(wiring.lamp),
  button: softly(wiring.button),
});

const readable = z.object({
  invented: softly(shape.invented),
  place: softly(shape.place),
  pump: softly(shape.pump),
  tank: softly(shape.tank),
  benches: z
    .array(readableBench.catch({ next: [] }))
    .max(BENCHES_MAX)
    .catch([]),
  crops: z.record(z.string(), z.unknown()).catch({}),
  dayPlan: z.array(readablePart.catch({})).max(DAY_PARTS_MAX).catch([]),
  bounds: softly(shape.bounds),
  floors: softly(shape.floors),
  hotDay: softly(shape.hotDay),
  climate: softly(shape.climate),
  evidence: softly(shape.evidence),
  sensors: softly(shape.sensors),
  board: readableBoard.optional().catch(undefined),
});

export type ReadableFarm = Readonly<z.infer<typeof readable>>;
export type ReadablePart = Readonly<z.infer<typeof readablePart>>;
export type ReadableWiring = Readonly<z.infer<typeof readableBoard>>;
export type ReadableBench = Readonly<z.infer<typeof readableBench>>;

/** Never fails: of a file that is no farm at all nothing is readable. */
export const readableFarm = (raw: unknown): ReadableFarm => {
  const read = readable.safeParse(raw);
  return read.success ? read.data : { benches: [], crops: {}, dayPlan: [] };
};
