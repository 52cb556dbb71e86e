import type { Farm, Wiring } from '../src/farm/farm.ts';
import type { ControllerState } from '../src/controller.ts';
import type { Entry } from '../src/journal/entry.ts';
import type { Clock } from '../src/ports/clock.ts';
import type { Journal } from '../src/ports/journal.ts';
import { readings } from '../src/sense/readings.ts';
import { believedNow } from '../src/time/clock-trust.ts';
import { afterMinutes, afterSeconds, type MonotonicMillis, type Now } from '../src/time/instant.ts';
import type { BoardLink } from './devices/board-link.ts';
import { firmwareWords, STOCK_WARNING } from './devices/identity.ts';
import { keeperSays, keeperWarnings, leftWords } from './devices/keeper/keeper-words.ts';
import { run, type RunAsked } from './run-loop.ts';
import { stateSentence, type LastFlood } from './state-sentence.ts';
import { statusOf, type StatusAsked } from './status-view.ts';
import type { Upkeep } from './upkeep/upkeep.ts';
import { readCalibration } from './storage/calibration-file.ts';
import { createStatusKeeper } from './storage/status-file.ts';

export interface HostAsked extends Pick<RunAsked, 'believes'> {
  readonly farm: Farm;
  readonly wiring: Wiring;
  readonly board: BoardLink;
  readonly clock: Clock;
  readonly simulated: boolean;
  readonly folder: string;
  readonly journal: Journal<Entry>;
  /** What is done beside the pump; nothing is, in a simulated shed. */
  readonly upkeep: Upkeep | null;
  readonly until: MonotonicMillis | 'stopped';
  readonly stop: AbortSignal;
  readonly talk: (text: string) => void;
}

/** By then a board that is there has answered, or the reason is known. */
const FIRST_WORD_SECONDS = 3;

/** What becomes of the pump when the host lets go of a board with stock firmware. */
const LEFT: Readonly<Record<Farm['deadBoard'], string>> = {
  'pump-stops':
    'The relay is let go: the pump stands, and nobody floods the benches until the host runs again.',
  'pump-runs':
    'The relay is let go: by its normally closed contact the pump now runs, down to the hard-wired float.',
  'plain-timer': 'The relay is let go: only the plain timer floods the benches now.',
};

/** A board out of hearing at the end was told nothing, and what it does then nobody here can see. */
const UNHEARD: Readonly<Record<'keeper' | 'any', string>> = {
  keeper:
    'The board is out of hearing: with power it floods by its own table, unseen. See whether the benches are wet; to stop the pump, pull its plug.',
  any: 'No board was in hearing, so none was told off: one with a keeper floods by its own table, one with stock firmware stays as it is. Go and see; to stop the pump, pull its plug.',
};

/** The whole host on one board: runs the loop, keeps the status file, tells who the board is, and lets go at the end. */
export const host = async (asked: HostAsked): Promise<void> => {
  const { farm, wiring, board, clock, simulated, folder, journal, upkeep, talk } = asked;
  const stored = await readCalibration(folder);
  if (stored.kind === 'unreadable') {
    talk(`The probe's calibration cannot be read and is not used: ${stored.why}`);
  }
  const calibration = stored.kind === 'found' ? stored.calibration : null;
  const keeper = createStatusKeeper(folder, (why) => {
    talk(`The status cannot be written, and the run goes on without it: ${why}`);
  });
  let last: LastFlood | null = null;
  let toldOf: string | null = null;
  let toldWhy: string | null = null;
  let toldWarnings: ReadonlySet<string> = new Set();
  let isInHand: boolean;
  let tellAgainAt = afterSeconds(clock.now().monotonic, FIRST_WORD_SECONDS);

  const boardWords = (): string => {
    const found = board.identity();
    if (found === null) {
      const link = board.link();
      return link.kind === 'down' ? link.why : 'up';
    }
    const { firmwareName, firmwareVersion, protocolVersion } = found.board;
    return `${firmwareName} ${firmwareVersion} on ${found.line}, Firmata ${protocolVersion}`;
  };
  const boardSays = (): string => {
    const state = board.keeperState();
    return state === null ? boardWords() : `${boardWords()}. ${keeperSays(state)}`;
  };
  const boardWarning = (): string | null => {
    const state = board.keeperState();
    // Of a board that was never found nobody knows the firmware.
    if (state === null) return simulated || board.identity() === null ? null : STOCK_WARNING;
    const warnings = keeperWarnings(state);
    return warnings.length === 0 ? null : warnings.join(' ');
  };
  /** Each warning of a board with a keeper is said when it comes, and again only when it comes again. */
  const tellWarnings = (): void => {
    const state = board.keeperState();
    if (state === null) return;
    const warnings = keeperWarnings(state).map((text) => [text.replace(/\d+(\.\d+)?/g, '#'), text] as const);
    for (const [key, text] of warnings) if (!toldWarnings.has(key)) talk(text);
    toldWarnings = new Set(warnings.map(([key]) => key));
  };
  /** Why no board is found, said once for each reason and not more than once a minute. */
  const tellWhyNone = (now: MonotonicMillis): void => {
    const link = board.link();
    if (link.kind === 'up' || link.why === toldWhy || now < tellAgainAt) return;
    toldWhy = link.why;
    tellAgainAt = afterMinutes(now, 1);
    talk(
      link.keeper === 'keeps'
        ? `Not in charge of the pump: ${link.why}. With power the board floods by its own table. Looking on.`
        : `No board: ${link.why}. Looking on.`,
    );
  };
  const tellBoard = (now: MonotonicMillis): void => {
    if (simulated) return;
    const found = board.identity();
    tellWarnings();
    if (found === null) {
      tellWhyNone(now);
      return;
    }
    if (toldOf === found.line) return;
    toldOf = found.line;
    talk(`Board: ${boardWords()}.`);
    talk(firmwareWords(found.board));
  };

  let left: ControllerState;
  try {
    left = await run({
      ...asked,
      journal: {
        append: (entries) => {
          for (const entry of entries) {
            if (entry.kind === 'verdict') last = { verdict: entry.verdict, at: entry.at };
          }
          journal.append(entries);
          upkeep?.append(entries);
        },
      },
      ...(upkeep === null ? {} : { begun: upkeep.begun, events: (now: Now) => upkeep.events(board, now) }),
      told: (step, now) => {
        tellBoard(now.monotonic);
        const seen = (): StatusAsked => ({
          farm,
          wiring,
          calibration,
          simulated,
          board: { says: boardSays(), warning: boardWarning() },
          step,
          last,
          now: believedNow(step.state.clock, now),
        });
        keeper.keep(() => statusOf(seen()));
        upkeep?.told(step, now, () => ({
          says: stateSentence(seen(), 'en'),
          saysToPeople: stateSentence(seen(), farm.language),
          readings: readings(farm, wiring, step.state.senses, calibration, now.monotonic),
        }));
      },
    });
  } finally {
    isInHand = board.link().kind === 'up';
    await board.close();
    await keeper.settled();
  }
  await upkeep?.ended(left, clock.now());
  if (simulated) return;
  const kept = board.keeperState();
  if (kept === null) talk(isInHand ? LEFT[farm.deadBoard] : UNHEARD.any);
  else talk(isInHand || kept.status?.flags.notSetUp === true ? leftWords(kept) : UNHEARD.keeper);
};
