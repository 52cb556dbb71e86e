import { spanText } from '../../../src/alarm/words.ts';
import type { KeeperState } from './keeper-state.ts';
import type { KeeperStatus, SelfTest } from './status.ts';

/** What a grower reads of the keeper on the board. */

const span = (seconds: number): string =>
  seconds < 60 ? `${Math.round(seconds)} s` : spanText(Math.round(seconds / 60));

const ownerWords = ({ owner, status }: KeeperState): string => {
  switch (owner) {
    case 'this-host':
      return 'This computer has the pump.';
    case 'keeper':
      return status?.secondsToFlood == null
        ? 'The board has the pump.'
        : `The board has the pump; by its own table it floods in ${span(status.secondsToFlood)}.`;
    case 'unknown':
      return '';
  }
};

const tableWords = ({ table, status }: KeeperState): string => {
  switch (table.kind) {
    case 'in-force':
      return 'Its table is that of the plan.';
    case 'putting':
      return 'Its table is being written.';
    case 'any':
    case 'unknown':
    case 'failed':
      if (status === null) return '';
      return status.table.slot === 'flash'
        ? 'Its table is the one that it was flashed with.'
        : `Its table is number ${status.table.seq}, in slot ${status.table.slot}.`;
  }
};

const holdWords = ({ status }: KeeperState): string =>
  status === null || status.holdSecondsLeft === 0
    ? ''
    : `The board holds the pump for ${span(status.holdSecondsLeft)} more; a hold is not isolation: pull the plug.`;

const refusalWords = ({ refusal }: KeeperState): string => {
  if (refusal === null) return '';
  const { what, seconds } = refusal;
  switch (what) {
    case 'resting':
      return `It lets the motor rest: the pump may start after ${span(seconds)}.`;
    case 'held':
      return 'It does not run the pump: it is held.';
    case 'tank-low':
      return `It does not run the pump: the tank is low, the next sip may come after ${span(seconds)}.`;
    case 'bad-value':
      return 'It refuses the pump command: a value is out of its range.';
    case 'cut-short':
      return `It runs the pump for ${span(seconds)} only, by a limit of its own.`;
  }
};

const resetWords = ({ status }: KeeperState): string => {
  if (status === null || status.resets === 0) return '';
  const causes = status.resetCauses.length === 0 ? 'unknown' : status.resetCauses.join(' and ');
  return `${status.resets} ${status.resets === 1 ? 'reset' : 'resets'} since power-on; cause of the last: ${causes}.`;
};

/** In one line, what the board does and why. */
export const keeperSays = (state: KeeperState): string =>
  [ownerWords(state), tableWords(state), holdWords(state), refusalWords(state), resetWords(state)]
    .filter((words) => words !== '')
    .join(' ');

const TEST_WORDS: Readonly<Record<SelfTest, string>> = {
  flash: 'its program is damaged; flash it again',
  EEPROM: 'a stored table does not verify; it uses the other one, or that of the flash',
  RAM: 'its memory is damaged; take another board',
  clock: 'its clock does not agree with its watchdog; rests and floods may be too long',
  setup: 'its setup is damaged; flash it again',
};

const statusWarnings = ({ flags, failedTests }: KeeperStatus): readonly string[] => [
  ...failedTests.map((test) => `A self-test of the board failed (${test}): ${TEST_WORDS[test]}.`),
  ...(flags.notSetUp ? ['The board is not set up: it keeps no plants.'] : []),
  ...(flags.missedFlood ? ['The board missed a flood: no water came back.'] : []),
  ...(flags.floatSuspect ? ['The tank float reads low while water comes back: the board doubts it.'] : []),
  ...(flags.handTestAsked
    ? [
        'The tank float reads low and nothing else tells. Look into the tank: if there is water, a short press of the button lets floods run for 2 h.',
      ]
    : []),
];

const driftWarning = ({ drift }: KeeperState): readonly string[] => {
  if (drift === null || drift.level === 'well') return [];
  const pace = drift.percent > 0 ? 'fast' : 'slow';
  const much = `The board's clock goes ${Math.abs(drift.percent).toFixed(1)} % too ${pace} by this computer's`;
  return drift.level === 'alarm'
    ? [`${much}: floods by its own table come at wrong times. Replace the board.`]
    : [`${much}.`];
};

/** What stands against relying on the board; empty when nothing does. Every one once said stays the same text while it stands. */
export const keeperWarnings = (state: KeeperState): readonly string[] => [
  ...(state.status === null ? [] : statusWarnings(state.status)),
  ...(state.watchdog === 'off'
    ? ['The board was flashed without its watchdog: when its program hangs, nothing ends that.']
    : []),
  ...(state.table.kind === 'failed'
    ? [`The board does not flood by this plan when this computer is gone: ${state.table.why}.`]
    : []),
  ...driftWarning(state),
];

/** What becomes of the pump when this computer lets go of a board with a keeper. */
export const leftWords = ({ status }: KeeperState): string => {
  if (status?.flags.notSetUp === true)
    return 'The board is not set up: it floods nothing, and nobody keeps the plants.';
  if (status !== null && status.holdSecondsLeft > 0)
    return `The board holds the pump for ${span(status.holdSecondsLeft)} more, then floods by its own table; a hold is not isolation: pull the plug.`;
  const running = status?.pump.asked === 'on' ? ' The flood under way goes on.' : '';
  return `The board floods by its own table from now on.${running}`;
};
