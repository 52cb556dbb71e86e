import type { Hello } from '../devices/keeper/board-message.ts';
import { isWithoutWatchdog } from '../devices/keeper/setup-compare.ts';
import { calibrationFile, readCalibration } from '../storage/calibration-file.ts';
import { stateFolder } from '../storage/state-folder.ts';
import { refuseOtherSetup } from './board-table.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { candidateAt, namedPort, statusOf, withKeeper } from './keeper-dialogue.ts';
import { keeperFarm, type KeeperFarm } from './keeper-farm.ts';
import { isSameTable, putTable, slotWords, tableOnBoard } from './keeper-tables.ts';
import { Refusal } from './refusal.ts';
import { wrapped } from './wrap.ts';

export interface AdoptOptions {
  readonly board: string;
  readonly json?: boolean;
}

/** What a host that looks for its board will make of this one. */
interface IdentityFinding {
  readonly wanted: string | null;
  readonly found: string | null;
  readonly verdict: 'fits' | 'change-file' | 'not-asked';
  readonly says: string;
}

const FIRMWARE_NAME = 'RillkeeperBoard';

const identityFinding = ({ accepted, wiring }: KeeperFarm, serialNumber: string | null): IdentityFinding => {
  const wanted = wiring.identity ?? null;
  if (wanted === null) {
    const says = `${accepted.file} names no board (board.identity): a host takes any board at the port it is given.`;
    return { wanted, found: serialNumber, verdict: 'not-asked', says };
  }
  if (wanted === serialNumber || wanted === FIRMWARE_NAME)
    return {
      wanted,
      found: serialNumber,
      verdict: 'fits',
      says: `This is the board that the file names: "${wanted}".`,
    };
  const { line } = accepted.locate(['board', 'identity']);
  const change =
    serialNumber === null
      ? `this one has no serial number: write identity: ${FIRMWARE_NAME} there, or delete the line`
      : `write identity: ${serialNumber} there`;
  const says = `Line ${line} of ${accepted.file} wants "${wanted}", and a host would refuse this board; ${change}.`;
  return { wanted, found: serialNumber, verdict: 'change-file', says };
};

interface CalibrationFinding {
  readonly kind: 'kept' | 'none' | 'unreadable' | 'no-probe';
  readonly says: string;
}

/** The calibration lies with the host; only the voltage that the counts are shares of was the other board's. */
const calibrationFinding = async (
  { accepted, farm, wiring }: KeeperFarm,
  port: string,
): Promise<CalibrationFinding> => {
  if (wiring.probe === undefined)
    return { kind: 'no-probe', says: 'No probe is wired, so there is no calibration to keep.' };
  const folder = stateFolder(farm.farm);
  const stored = await readCalibration(folder);
  const again = `rillkeeper probe calibrate ${accepted.file} --board ${port} --standard 1413`;
  switch (stored.kind) {
    case 'none':
      return { kind: 'none', says: `The probe was never calibrated on this computer: ${again}` };
    case 'unreadable':
      return {
        kind: 'unreadable',
        says: `${calibrationFile(folder)} cannot be read (${stored.why}); calibrate anew: ${again}`,
      };
    case 'found':
      return {
        kind: 'kept',
        says: `The calibration of the probe lies on this computer and stays in force. It was made with the other board, whose converter and supply may read a few percent otherwise: check it with one standard before you mix by it: ${again}`,
      };
  }
};

/** What only eyes at the pump can tell. */
const AT_THE_PUMP: readonly string[] = [
  'Hands off the water and the mains; then put the plug of the pump in.',
  'Take the power of the board away and give it again: it floods once by itself, after its shortest off and at least 15 s, or after 5 min when its power was cut twice within 5 min. The pump runs, and water comes back within its usual time.',
  'Hold the board in reset for 10 s: the pump does what the farm file says of a dead board (deadBoard).',
  'Then start the host again, and see that it says it has the pump.',
];

const refuseUnfit = (hello: Hello, notSetUp: boolean, file: string, port: string): void => {
  if (!notSetUp) return;
  throw new Refusal(
    `${port}: this board (firmware ${hello.firmware.major}.${hello.firmware.minor}) is not set up. Flash it first: rillkeeper board flash ${file} --board ${port}`,
    EXIT.badInput,
  );
};

/** `rillkeeper board adopt FARM --board PORT`: makes a flashed spare the board of this farm. */
export const boardAdopt = async (
  path: string,
  options: AdoptOptions,
  console: Console,
): Promise<ExitCode> => {
  const port = namedPort(options.board);
  const ready = await keeperFarm(path, port);
  const longestOn = Math.floor(ready.farm.pump.longestOnMinutes * 60);
  const { serialNumber } = await candidateAt(port);
  const board = await withKeeper(port, async (dialogue) => {
    const { flags } = await statusOf(dialogue);
    refuseUnfit(dialogue.hello, flags.notSetUp, ready.accepted.file, port);
    refuseOtherSetup(ready, dialogue.hello.setup, port);
    const before = await tableOnBoard(dialogue, longestOn);
    const table = isSameTable(before, ready.table)
      ? before
      : await putTable(dialogue, ready.table, longestOn);
    return { hello: dialogue.hello, table, written: table !== before };
  });
  const identity = identityFinding(ready, serialNumber);
  const calibration = await calibrationFinding(ready, port);
  const { firmware } = board.hello;
  const watchdog = isWithoutWatchdog(board.hello.setup) ? 'off' : 'on';
  if (options.json === true) {
    const { slot, seq } = board.table;
    const table = { slot, seq, written: board.written };
    console.out(
      JSON.stringify(
        { ok: true, port, firmware, watchdog, table, identity, calibration, atThePump: AT_THE_PUMP },
        null,
        2,
      ),
    );
    return EXIT.done;
  }
  const lines = [
    `Firmware ${firmware.major}.${firmware.minor}, set up for ${ready.farm.farm}${watchdog === 'off' ? '; WITHOUT its watchdog (see: rillkeeper board flash --help)' : ''}.`,
    `${board.written ? 'The table of today was put and read back' : 'It already had the table of today'}: ${slotWords(board.table)}.`,
    identity.says,
    calibration.says,
  ];
  for (const line of lines) console.out(wrapped(line, console.columns));
  console.out('Now at the pump:');
  AT_THE_PUMP.forEach((line, place) => {
    console.out(wrapped(`  ${place + 1}. ${line}`, console.columns, 5));
  });
  return EXIT.done;
};
