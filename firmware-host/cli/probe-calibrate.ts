import { createInterface } from 'node:readline/promises';
import type { Wiring } from '../../src/farm/farm.ts';
import { calibrated, type StandardDip } from '../../src/sense/calibrate.ts';
import { median } from '../../src/units/median.ts';
import { moduleOf } from '../../src/sense/strength.ts';
import { afterSeconds, wallMillis } from '../../src/time/instant.ts';
import type { BoardLink } from '../devices/board-link.ts';
import { realClock } from '../real-clock.ts';
import { calibrationFile, readCalibration, writeCalibration } from '../storage/calibration-file.ts';
import { stateFolder } from '../storage/state-folder.ts';
import { answering, lookedAt } from './board-watch.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { acceptedFarm, type AcceptedFarm } from './farm-argument.ts';
import { Refusal } from './refusal.ts';
import { stopSignal } from './stop-signal.ts';
import { numberWithin } from './times.ts';
import { wiringOf } from './wiring-argument.ts';
import { wrapped } from './wrap.ts';

export interface CalibrateOptions {
  readonly board: string;
  readonly standard: readonly string[];
  readonly celsius?: string;
}

/** A reading that was begun before Enter was pressed is over by then. */
const SETTLE_SECONDS = 2;
/** How long counts are taken in each standard. */
const READ_SECONDS = 10;

/** What is weaker is no standard for a nutrient solution, and most likely was typed in mS/cm. µS/cm. */
const STANDARD_LEAST = 50;
const STANDARD_MOST = 200_000;

/** @throws Refusal */
const standardFrom = (text: string): number => {
  const value = Number(text);
  if (value > 0 && value < STANDARD_LEAST && value * 1000 >= STANDARD_LEAST) {
    throw new Refusal(
      `--standard: found "${text}"; allowed is ${STANDARD_LEAST} to ${STANDARD_MOST} µS/cm at 25 °C. Did you mean ${Math.round(value * 1000)}? A bottle may tell mS/cm: 1 mS/cm is 1000 µS/cm.`,
      EXIT.usage,
    );
  }
  return numberWithin(text, '--standard', STANDARD_LEAST, STANDARD_MOST);
};

const standardsFrom = ({ standard }: CalibrateOptions): readonly number[] => {
  if (standard.length < 1 || standard.length > 2) {
    throw new Refusal(
      `--standard: found ${standard.length}; allowed are one or two, such as --standard 84 --standard 1413 (µS/cm at 25 °C, from the bottle).`,
      EXIT.usage,
    );
  }
  return standard.map(standardFrom);
};

const probeOf = (accepted: AcceptedFarm): NonNullable<Wiring['probe']> => {
  const { probe } = wiringOf(accepted);
  if (probe !== undefined) return probe;
  throw new Refusal(
    `${accepted.file}: the file wires no probe (board.probe), so there is none to calibrate.`,
  );
};

/** What the board reads during ten seconds in one standard. */
const dipped = async (
  board: BoardLink,
  standard: number,
  celsiusAsked: number | null,
  stop: AbortSignal,
): Promise<StandardDip> => {
  const clock = realClock(stop);
  await clock.until(afterSeconds(clock.now().monotonic, SETTLE_SECONDS));
  board.samples();
  await clock.until(afterSeconds(clock.now().monotonic, READ_SECONDS));
  const link = board.link();
  if (link.kind === 'down') {
    throw new Refusal(`The board went away: ${link.why}. The old calibration is kept.`, EXIT.noBoard);
  }
  const counts: number[] = [];
  const water: number[] = [];
  for (const sample of board.samples()) {
    if (sample.channel === 'probe') counts.push(sample.counts);
    if (sample.channel === 'water-temperature') water.push(sample.celsius);
  }
  if (celsiusAsked === null && water.length === 0) {
    throw new Refusal(
      'No water thermometer speaks; give the temperature in the cup, such as --celsius 24.5. The old calibration is kept.',
    );
  }
  return { standardMicrosiemensPerCmAt25: standard, counts, celsius: celsiusAsked ?? median(water) };
};

/**
 * `rillkeeper probe calibrate FARM --board PORT --standard 1413`: asks for each dip, reads, and keeps the new
 * calibration or the old one.
 */
export const probeCalibrate = async (
  path: string,
  options: CalibrateOptions,
  console: Console,
): Promise<ExitCode> => {
  const accepted = await acceptedFarm(path);
  const probe = probeOf(accepted);
  const standards = standardsFrom(options);
  const celsius = options.celsius === undefined ? null : numberWithin(options.celsius, '--celsius', -5, 60);
  const folder = stateFolder(accepted.farm.farm);
  const stored = await readCalibration(folder);
  if (stored.kind === 'unreadable') {
    throw new Refusal(
      `${calibrationFile(folder)} cannot be read: ${stored.why}\nMove it away to begin without its history.`,
    );
  }
  const before = stored.kind === 'found' ? stored.calibration : null;
  const stop = stopSignal();
  const board = lookedAt(accepted, options.board);
  await answering(board, stop);
  const lines = createInterface({ input: process.stdin, output: process.stderr, terminal: false });
  const answers = lines[Symbol.asyncIterator]();
  const dips: StandardDip[] = [];
  try {
    for (const standard of standards) {
      const beside = celsius === null ? ' with the water thermometer beside it' : '';
      console.talk(
        wrapped(
          `${standard} µS/cm: rinse the probe, shake it dry, dip it${beside} into this standard, stir, wait a minute, then press Enter.`,
          console.columns,
        ),
      );
      const { done } = await Promise.race([
        answers.next(),
        new Promise<{ readonly done: true }>((end) => {
          stop.addEventListener(
            'abort',
            () => {
              end({ done: true });
            },
            { once: true },
          );
        }),
      ]);
      if (done === true || stop.aborted) {
        console.talk('Ended before all dips were made; the old calibration is kept.');
        return EXIT.notWell;
      }
      console.talk(`Reading for ${READ_SECONDS} s …`);
      dips.push(await dipped(board, standard, celsius, stop));
    }
  } finally {
    lines.close();
    await board.close();
  }
  const [first, second] = dips;
  if (first === undefined) return EXIT.notWell;
  const result = calibrated(before, {
    dips: second === undefined ? [first] : [first, second],
    module: moduleOf(probe),
    at: wallMillis(Date.now()),
  });
  if (result.kind === 'refused') {
    const kept = before === null ? 'There is still no calibration.' : 'The old calibration is kept.';
    throw new Refusal(`${result.refusal.says} ${result.refusal.toDo} ${kept}`);
  }
  await writeCalibration(folder, result.calibration);
  const { cellFactor, zeroMicrosiemensPerCm, earlier } = result.calibration;
  const drift =
    result.driftPercent === null
      ? 'the first of this probe'
      : `the old one read ${Math.abs(result.driftPercent).toFixed(1)} % ${result.driftPercent >= 0 ? 'high' : 'low'}`;
  console.out(
    `Accepted: cell factor ${cellFactor.toFixed(3)}, zero ${zeroMicrosiemensPerCm.toFixed(0)} µS/cm; ${drift}. ${earlier.length} earlier kept. A running host takes it at its next start.`,
  );
  if (result.note !== null) console.talk(result.note);
  return EXIT.done;
};
