import type { Wiring } from '../../src/farm/farm.ts';
import type { Dialogue } from '../devices/keeper/dialogue.ts';
import type { Console } from './console.ts';
import { watchedContacts } from './contact-watch.ts';
import { enterFrom, type Enter } from './enter.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { namedPort, statusOf, withKeeper } from './keeper-dialogue.ts';
import { keeperFarm, type KeeperFarm } from './keeper-farm.ts';
import { keeperFindings, type Finding } from './keeper-findings.ts';
import { SIGNALS, triedSignal, triedTakeOver } from './keeper-trials.ts';
import { Refusal } from './refusal.ts';
import { stopSignal } from './stop-signal.ts';
import { spanMinutes } from './times.ts';
import { wrapped } from './wrap.ts';

export interface TestOptions {
  readonly board: string;
  readonly for?: string;
  readonly json?: boolean;
}

const CONTACT_SECONDS = 60;
const BEGIN = [
  "Pull the pump's plug first. This command gives no pump command, but the board floods by its own table when a flood is due.",
  'Press Enter to begin; Ctrl-C ends this.',
];
const MOVE_CONTACTS =
  'Now move every contact, one after the other: press the button short, and the relay and its read-back follow within half a minute or so; lift and sink the floats, wet the sensors, let water run through the return. Dry your hands before you pull the plug of the supply that the mains contact watches. Pump current cannot be seen while the plug of the pump is out.';

const MARKS: Readonly<Record<Finding['verdict'], string>> = {
  well: 'well      ',
  warning: 'WARNING   ',
  failed: 'FAILED    ',
  'not-tried': 'not tried ',
};

/** What is tried with a person beside the board. */
const trials = async (
  dialogue: Dialogue,
  wiring: Wiring,
  seconds: number,
  enter: Enter,
  stop: AbortSignal,
  console: Console,
): Promise<readonly Finding[]> => {
  console.talk(wrapped(MOVE_CONTACTS, console.columns));
  const findings = [...(await watchedContacts(dialogue, seconds, stop, console))];
  for (const signal of SIGNALS) {
    if (wiring[signal.name] === undefined) continue;
    findings.push(await triedSignal(dialogue, signal, enter, stop, console));
  }
  findings.push(await triedTakeOver(dialogue, stop, console));
  return findings;
};

const tested = async (
  ready: KeeperFarm,
  dialogue: Dialogue,
  seconds: number,
  console: Console,
): Promise<readonly Finding[] | null> => {
  const stop = stopSignal();
  const status = await statusOf(dialogue);
  if (status.flags.notSetUp) {
    throw new Refusal(
      `The board is not set up: it drives no pin, and there is nothing to test. Flash it: rillkeeper board flash ${ready.accepted.file} --board PORT`,
      EXIT.badInput,
    );
  }
  const enter = enterFrom(process.stdin, stop);
  try {
    for (const line of BEGIN) console.talk(wrapped(line, console.columns));
    if ((await enter.line()) === null) return null;
    const findings = keeperFindings(ready, dialogue.hello, status);
    return [...findings, ...(await trials(dialogue, ready.wiring, seconds, enter, stop, console))];
  } finally {
    enter.close();
  }
};

/** `rillkeeper board test FARM --board PORT`: a board with a keeper, looked at and tried, with no water moved by this program. */
export const boardTest = async (path: string, options: TestOptions, console: Console): Promise<ExitCode> => {
  const port = namedPort(options.board);
  const seconds = options.for === undefined ? CONTACT_SECONDS : 60 * spanMinutes(options.for, '--for');
  const ready = await keeperFarm(path, port);
  const findings = await withKeeper(port, (dialogue) => tested(ready, dialogue, seconds, console));
  if (findings === null) {
    console.talk('Ended before it began; nothing was tried.');
    return EXIT.notWell;
  }
  const failed = findings.filter(({ verdict }) => verdict === 'failed').length;
  if (options.json === true) {
    console.out(JSON.stringify({ port, ok: failed === 0, findings }, null, 2));
  } else {
    for (const { verdict, says } of findings)
      console.out(wrapped(`  ${MARKS[verdict]} ${says}`, console.columns, MARKS.well.length + 3));
    const untried = findings.filter(({ verdict }) => verdict === 'not-tried').length;
    const rest = untried === 0 ? '' : ` ${untried} not tried.`;
    console.out(
      failed === 0 ? `Nothing failed.${rest}` : `${failed} failed: the board must not go to the pump.${rest}`,
    );
    console.talk(
      wrapped(
        'Still to be seen with eyes, at the pump: hardware-notes/commissioning.md. The wiring of a dead board shows only when the board is held in reset.',
        console.columns,
      ),
    );
  }
  return failed === 0 ? EXIT.done : EXIT.notWell;
};
