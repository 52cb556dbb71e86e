import { join } from 'node:path';
import { z } from 'zod';
import { EARLIER_KEPT } from '../../src/sense/calibrate.ts';
import type { CalibrationFit, ProbeCalibration } from '../../src/sense/probe.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { readWhole, writeWhole } from './atomic-file.ts';

const fit = z.strictObject({
  cellFactor: z.number().min(0.5).max(2),
  zeroMicrosiemensPerCm: z.number(),
  at: z.union([z.literal('unknown'), z.number().transform(wallMillis)]),
  points: z
    .array(
      z.strictObject({
        standardMicrosiemensPerCmAt25: z.number().positive(),
        counts: z.number().min(0),
        celsius: z.number(),
      }),
    )
    .min(1)
    .max(2),
  module: z.union([
    z.strictObject({ fullScaleMicrosiemensPerCm: z.number().positive(), bits: z.number().optional() }),
    z.strictObject({ seriesOhms: z.number().positive(), cellPerCm: z.number().positive() }),
  ]),
});
const calibration = fit.extend({ earlier: z.array(fit).max(EARLIER_KEPT) });

export type StoredCalibration =
  | { readonly kind: 'found'; readonly calibration: ProbeCalibration }
  | { readonly kind: 'none' }
  /** Not believed, and not thrown away. */
  | { readonly kind: 'unreadable'; readonly why: string };

export const calibrationFile = (folder: string): string => join(folder, 'probe-calibration.json');

/** The calibration in force, with those before it. */
export const readCalibration = async (folder: string): Promise<StoredCalibration> => {
  try {
    const text = await readWhole(calibrationFile(folder));
    if (text === null) return { kind: 'none' };
    const read = calibration.safeParse(JSON.parse(text));
    if (read.success) return { kind: 'found', calibration: read.data satisfies CalibrationFit };
    return { kind: 'unreadable', why: z.prettifyError(read.error) };
  } catch (error) {
    return { kind: 'unreadable', why: error instanceof Error ? error.message : String(error) };
  }
};

/** @throws Error of the file system; the calibration before stays in force then */
export const writeCalibration = (folder: string, accepted: ProbeCalibration): Promise<void> =>
  writeWhole(calibrationFile(folder), `${JSON.stringify(accepted, null, 2)}\n`);
