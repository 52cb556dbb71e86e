import { spanText } from '../../src/alarm/words.ts';
import { localDateTimeText } from '../../src/time/local-day.ts';
import { isPlausible } from '../../src/time/clock-trust.ts';
import { wallMillis } from '../../src/time/instant.ts';
import { hostOfFarm, hostThere } from '../storage/one-board.ts';
import { ownerWords, type Claimant } from '../storage/one-host.ts';
import { ageSecondsOf, isSilent, readStatus, type Status } from '../storage/status-file.ts';
import { demoFolder, stateFolder } from '../storage/state-folder.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { farmToTellOf } from './farm-argument.ts';
import { readingLine } from './reading-words.ts';
import { Refusal } from './refusal.ts';
import { wrapped } from './wrap.ts';

/** A host that does not know the date writes by the clock that it has. */
const clockWords = (iso: string, zone: string): string => {
  const wall = wallMillis(Date.parse(iso));
  return isPlausible(wall) ? localDateTimeText(wall, zone) : 'a time that nobody knows';
};

type Told = Status['alarms'][number];

/** Its condition has gone, and nobody has said yet that they have seen it. */
const isOver = ({ state }: Told): boolean => state === 'returned-unacknowledged';

const STATE_WORDS: Readonly<Record<string, string>> = {
  'active-unacknowledged': 'nobody has answered',
  'active-acknowledged': 'acknowledged',
  shelved: 'put off',
};

const alarmWords = (alarm: Told): string =>
  isOver(alarm)
    ? `Over, not acknowledged ("ok" in a text does that): (${alarm.priority}) ${alarm.text}`
    : `ALARM (${alarm.priority}, ${STATE_WORDS[alarm.state] ?? alarm.state}) ${alarm.text}`;

const RANKS = ['high', 'medium', 'low'] as const;

/** High first, and what is over after all that stands. */
const inOrder = (alarms: readonly Told[]): readonly Told[] =>
  alarms.toSorted(
    (a, b) => Number(isOver(a)) - Number(isOver(b)) || RANKS.indexOf(a.priority) - RANKS.indexOf(b.priority),
  );

/** How the host stands that wrote the status; a simulated shed is claimed by nobody. */
type HostState = 'writes' | 'cannot-write' | 'hangs' | 'gone';

const hostState = (silent: boolean, there: Claimant | null): HostState => {
  if (!silent) return 'writes';
  if (there === null) return 'gone';
  return there.answers ? 'cannot-write' : 'hangs';
};

const WATCHED_BY_NOBODY = 'nobody watches the floods, and only a board with a keeper still gives any';

/** A host may run with a state folder that only the environment of a service names. */
const elsewhereWords = async (farm: string, folder: string, path: string): Promise<string | null> => {
  const pid = await hostOfFarm(farm);
  return pid === null
    ? null
    : `A host of ${farm} runs on this machine (${ownerWords(pid)}), and not with ${folder}. RILLKEEPER_STATE names the folder that it has, as a service does: RILLKEEPER_STATE=/var/lib/rillkeeper rillkeeper status ${path}`;
};

const silentWords = (state: Exclude<HostState, 'writes'>, pid: number | null, when: string): string => {
  switch (state) {
    case 'gone':
      return `NO HOST since ${when}: ${WATCHED_BY_NOBODY}. Go and see whether the benches are wet, then start it. What it said last:`;
    case 'hangs':
      return `THE HOST HANGS (${ownerWords(pid)}) since ${when}: ${WATCHED_BY_NOBODY}. Go and see whether the benches are wet, end it and start it anew. What it said last:`;
    case 'cannot-write':
      return `NO NEWS since ${when}: the host runs (${ownerWords(pid)}) but cannot write its status. Look whether the disk is full or read-only. What it said last:`;
  }
};

interface Shown {
  readonly status: Status;
  readonly state: HostState;
  readonly pid: number | null;
}

/** What is told of a simulated shed must nowhere be taken for the real one. */
const headWords = ({ status, state, pid }: Shown): string => {
  const { farm, simulated, shedTime, timeZone } = status;
  const when = clockWords(status.writtenAt, timeZone);
  if (!simulated) return state === 'writes' ? farm : silentWords(state, pid, when);
  const shed = `${farm}, in a simulated shed at ${shedTime === null ? 'an unknown time' : clockWords(shedTime, timeZone)}`;
  return state === 'writes'
    ? shed
    : `${shed}, which nobody runs since ${when}. Of the real shed no host has written here. What was said last of the simulated one:`;
};

/** Of a host that is silent what was left then is none of now. */
const leftWords = ({ status: { timeLeft, writtenAt, timeZone }, state }: Shown): string => {
  const { minutes, bench } = timeLeft;
  const then = state === 'writes' ? '' : `, at ${clockWords(writtenAt, timeZone)}`;
  if (bench === null) return `Time left without the pump${then}: more than a day.`;
  return minutes < 1
    ? `No time left without the pump${then}: ${bench} may be wilting already.`
    : `Time left without the pump${then}: ${spanText(minutes)}, then ${bench} may begin to wilt.`;
};

const statusText = (shown: Shown, columns: number): string => {
  const { status } = shown;
  const { board, benches, alarms, readings } = status;
  const wrap = (text: string): string => wrapped(text, columns, 2);
  const made = status.simulated ? ', simulated' : '';
  return [
    wrap(headWords(shown)),
    '',
    wrap(status.says),
    wrap(leftWords(shown)),
    ...inOrder(alarms).map((one) => wrap(alarmWords(one))),
    '',
    `Held water${made}, likely (dry edge of the doubt):`,
    ...benches.map(
      ({ name, heldPercent, dryEdgePercent }) =>
        `  ${name.padEnd(14)}  ${heldPercent} % (${dryEdgePercent} %)`,
    ),
    '',
    `Readings${made}:`,
    ...readings.map((reading) => readingLine(reading.name, reading, columns)),
    '',
    wrap(`Board${made}: ${board.link === 'up' ? '' : 'DOWN: '}${board.says}`),
    ...(board.warning === null ? [] : [wrap(board.warning)]),
  ].join('\n');
};

/** `rillkeeper status FARM`: what the running host last said of itself. */
export const status = async (
  path: string,
  options: { readonly json?: boolean },
  console: Console,
): Promise<ExitCode> => {
  const { farm } = await farmToTellOf(path, console);
  const folder = stateFolder(farm.farm);
  const real = await readStatus(folder);
  if (real.kind === 'none') {
    const there = await hostThere(folder, farm.farm);
    if (there !== null) {
      throw new Refusal(
        `The host of ${farm.farm} is there (${ownerWords(there.pid)}) and has written no status in ${folder} yet. ${there.answers ? 'If it does not within half a minute, look whether the disk is full or read-only.' : 'It does not answer: it hangs.'}`,
        EXIT.notWell,
      );
    }
  }
  const stored = real.kind === 'none' ? await readStatus(demoFolder(farm.farm)) : real;
  switch (stored.kind) {
    case 'none': {
      const elsewhere = await elsewhereWords(farm.farm, folder, path);
      if (elsewhere !== null) throw new Refusal(elsewhere, EXIT.notWell);
      throw new Refusal(
        `No host has run for ${farm.farm} on this machine: nothing in ${folder}. Start one: rillkeeper run ${path} --board …`,
        EXIT.notWell,
      );
    }
    case 'unreadable':
      throw new Refusal(`The status in ${folder} cannot be read: ${stored.why}`, EXIT.notWell);
    case 'found': {
      const now = Date.now();
      const silent = isSilent(stored.status, now);
      const there = silent && !stored.status.simulated ? await hostThere(folder, farm.farm) : null;
      const state = hostState(silent, there);
      const elsewhere =
        stored.status.simulated || state === 'gone' ? await elsewhereWords(farm.farm, folder, path) : null;
      if (elsewhere !== null) console.talk(wrapped(elsewhere, console.columns));
      console.out(
        options.json === true
          ? JSON.stringify(
              {
                hostSilent: silent,
                host: state,
                ageSeconds: Math.round(ageSecondsOf(stored.status, now)),
                ...stored.status,
              },
              null,
              2,
            )
          : statusText({ status: stored.status, state, pid: there?.pid ?? null }, console.columns),
      );
      const { alarms, board } = stored.status;
      return silent || !alarms.every(isOver) || board.link === 'down' ? EXIT.notWell : EXIT.done;
    }
  }
};
