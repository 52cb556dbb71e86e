import { join } from 'node:path';
import { setupBlock, setupNotes } from '../../src/farm/keeper-setup.ts';
import { usbIdsOf } from '../devices/usb-ids.ts';
import {
  askArguments,
  commandLine,
  failureWords,
  GET_AVRDUDE,
  runAvrdude,
  writeArguments,
} from '../firmware-image/avrdude.ts';
import {
  BOOTLOADER_QUESTION,
  bootloaderIn,
  FLASHING,
  flashingOfIds,
  WITHOUT_WATCHDOG,
  type Flashing,
} from '../firmware-image/bootloader.ts';
import { programCrc, programLength, writtenRanges } from '../firmware-image/flash-image.ts';
import { intelHexOf } from '../firmware-image/intel-hex.ts';
import { writeWhole } from '../storage/atomic-file.ts';
import { boardTaken } from '../storage/one-board.ts';
import { claimed, ownerWords } from '../storage/one-host.ts';
import { stateFolder } from '../storage/state-folder.ts';
import type { Console } from './console.ts';
import { enterFrom } from './enter.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { namedPort, withKeeper } from './keeper-dialogue.ts';
import { keeperFarm, type KeeperFarm } from './keeper-farm.ts';
import { keeperImage } from './keeper-image.ts';
import { isSameTable, putTable, tableOnBoard } from './keeper-tables.ts';
import { refuseUnlessNew } from './new-file.ts';
import { Refusal } from './refusal.ts';
import { stopSignal } from './stop-signal.ts';
import { wrapped } from './wrap.ts';

export interface FlashOptions {
  readonly board: string;
  readonly bootloader?: 'old' | 'new';
  readonly writeOnlyFile?: string;
  readonly json?: boolean;
}

/** Hands and mains before a board is flashed. */
const CAUTIONS = [
  'Before you go on:',
  "Pull the pump's plug. While the bootloader runs the relay may click, and nothing here holds the pump.",
  'Nobody waters the plants meanwhile: choose a moment right after a flood.',
  'Once it is flashed the board floods by itself, half a minute later or so: leave the plug out until hands and wires are away.',
  'Work on mains wiring is for a licensed person, with the supply off.',
];

const flashingFor = async (port: string, { bootloader }: FlashOptions): Promise<Flashing> => {
  const known = bootloader === undefined ? flashingOfIds(await usbIdsOf(port)) : FLASHING[bootloader];
  if (known !== null) return known;
  throw new Refusal(`${port}: ${BOOTLOADER_QUESTION}`, EXIT.usage);
};

const said =
  (console: Console) =>
  (...lines: readonly string[]): void => {
    for (const line of lines) console.talk(wrapped(line, console.columns, 2));
  };

/** @throws Refusal when the image cannot be kept; no board was touched then */
const stored = (file: string, text: string, what: string): Promise<void> =>
  writeWhole(file, text).catch((error: unknown) => {
    throw new Refusal(
      `${file} cannot be written: ${error instanceof Error ? error.message : String(error)}. No board was touched. ${what}`,
    );
  });

/** Runs avrdude with its talk shown. @throws Refusal when it is missing or fails */
const ran = async (args: readonly string[], flashing: Flashing, console: Console): Promise<string> => {
  const end = await runAvrdude(args, (line) => {
    console.talk(`  ${line}`);
  });
  if (end.kind === 'missing') throw new Refusal(GET_AVRDUDE, EXIT.noBoard);
  if (end.code === 0) return end.output;
  throw new Refusal(`avrdude failed. ${failureWords(end.output, flashing)}`, EXIT.noBoard);
};

/** Refuses a watchdog where the bootloader itself says that it is an old one. */
const askedBootloader = async (
  port: string,
  flashing: Flashing,
  console: Console,
): Promise<string | null> => {
  const found = bootloaderIn(await ran(askArguments(port, flashing), flashing, console));
  const tell = said(console);
  if (found === null) {
    tell('The bootloader does not tell its version; it answers at the speed that was asked for.');
    return null;
  }
  if (found.bootloader === 'old' && flashing.watchdog === 'on') {
    throw new Refusal(
      `${port}: the bootloader says that it is version ${found.says}, an old one; nothing was written. Add --bootloader old.\n${WITHOUT_WATCHDOG}`,
      EXIT.badInput,
    );
  }
  if (found.bootloader === 'new' && flashing.watchdog === 'off')
    tell(
      `The bootloader says that it is version ${found.says}, which may be a new one: try --bootloader new, to have the watchdog.`,
    );
  return found.says;
};

/**
 * Whether the board that was flashed now says what it was flashed for. Its EEPROM may hold the table of the farm that it
 * served before, and that would hold: so it gets the one of today.
 */
const verified = (port: string, { farm, table }: KeeperFarm, block: Uint8Array): Promise<void> =>
  withKeeper(port, async (dialogue) => {
    if (!dialogue.hello.setup.every((byte, at) => byte === block[at])) {
      throw new Refusal(
        `${port}: the board answers with another setup than the one written. It must not go to the pump; flash it once more.`,
        EXIT.notWell,
      );
    }
    const longestOn = Math.floor(farm.pump.longestOnMinutes * 60);
    if (!isSameTable(await tableOnBoard(dialogue, longestOn), table))
      await putTable(dialogue, table, longestOn);
  });

/** `rillkeeper board flash FARM --board PORT` */
export const boardFlash = async (
  path: string,
  options: FlashOptions,
  console: Console,
): Promise<ExitCode> => {
  const port = namedPort(options.board);
  const ready = await keeperFarm(path, port);
  const flashing = await flashingFor(port, options);
  const image = await keeperImage(ready.accepted, ready.wiring, flashing.watchdog);
  const folder = stateFolder(ready.farm.farm);
  // So that a slip of the hand writes over no farm file.
  if (options.writeOnlyFile !== undefined && !/\.hex$/i.test(options.writeOnlyFile)) {
    throw new Refusal(
      `--write-only-file: found ${options.writeOnlyFile}; allowed is a name that ends in .hex.`,
      EXIT.usage,
    );
  }
  if (options.writeOnlyFile !== undefined)
    refuseUnlessNew('--write-only-file', options.writeOnlyFile, 'board.hex');
  const file = options.writeOnlyFile ?? join(folder, 'board-image.hex');
  const text = intelHexOf(image, writtenRanges(image));
  const args = writeArguments(port, flashing, file);
  const tell = said(console);
  tell(...ready.says, ...setupNotes(ready.farm, ready.wiring));
  if (flashing.watchdog === 'off') tell(...WITHOUT_WATCHDOG.split('\n'));
  const facts = {
    farm: ready.farm.farm,
    port,
    ...flashing,
    file,
    command: ['avrdude', ...args],
    program: { bytes: programLength(image), crc: programCrc(image) },
  };
  const done = (what: string, flashed: boolean): ExitCode => {
    console.out(
      options.json === true
        ? JSON.stringify({ ok: true, flashed, ...facts }, null, 2)
        : wrapped(what, console.columns),
    );
    return EXIT.done;
  };
  if (options.writeOnlyFile !== undefined) {
    await stored(file, text, 'Name a file in a folder that you may write to.');
    tell(...CAUTIONS, 'Then, by hand:');
    console.talk(`  ${commandLine(args)}`);
    tell(
      `A board that served before keeps its old table; after the flashing: rillkeeper board table ${path} --board ${port} --write`,
    );
    return done(
      `${file} holds the program with the setup of ${ready.farm.farm}; no board was touched.`,
      false,
    );
  }
  const claim = (await boardTaken(port)) ?? (await claimed(folder));
  if (claim.kind === 'taken') {
    throw new Refusal(
      `Another rillkeeper runs ${ready.farm.farm} or drives this board (${ownerWords(claim.pid)}); end it first, or it takes the board in the middle of the flashing.`,
      EXIT.anotherHost,
    );
  }
  await stored(file, text, 'RILLKEEPER_STATE names another folder for it.');
  tell(...CAUTIONS, 'By hand the same is:');
  console.talk(`  ${commandLine(args)}`);
  const enter = enterFrom(process.stdin, stopSignal());
  try {
    tell("Press Enter when the pump's plug is pulled; Ctrl-C ends this.");
    if ((await enter.line()) === null) {
      tell('Ended; nothing was written to the board.');
      return EXIT.notWell;
    }
  } finally {
    enter.close();
  }
  await askedBootloader(port, flashing, console);
  await ran(args, flashing, console);
  tell('Written and read back. Asking the board …');
  await verified(port, ready, setupBlock(ready.farm, ready.wiring, flashing.watchdog));
  return done(
    `Flashed for ${ready.farm.farm}: the board answers with this setup, and has the table of today. Next: rillkeeper board test ${path} --board ${port}`,
    true,
  );
};
