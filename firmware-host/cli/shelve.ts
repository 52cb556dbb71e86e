import { setTimeout as sleep } from 'node:timers/promises';
import { SHELF_MINUTES_MAX, shelfMinutesMax } from '../../src/alarm/shelving.ts';
import { isOnWater } from '../../src/alarm/stakes.ts';
import { spanText } from '../../src/alarm/words.ts';
import { isAlarmKind } from '../../src/controller.ts';
import type { Status } from '../storage/status-file.ts';
import { stateFolder } from '../storage/state-folder.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { farmToTellOf } from './farm-argument.ts';
import { knownStatus } from './known-status.ts';
import { Refusal } from './refusal.ts';
import { noHostTook, tellHost, whoIsHere } from './tell-host.ts';
import { numberWithin } from './times.ts';
import { wrapped } from './wrap.ts';

export interface ShelveOptions {
  readonly minutes: string;
}

type Told = Status['alarms'][number];

/** A host writes what its alarms are within a second, and a slow card takes a few. */
const SEEN_SECONDS = 10;

/** Whether a person may put it off; never one on water, nor one that a newer version knows. */
const mayWait = (kind: string): boolean => isAlarmKind(kind) && !isOnWater(kind);
const isActive = ({ state }: Told): boolean => state !== 'returned-unacknowledged';

const listed = (alarm: Told): string => {
  if (alarm.state === 'shelved') return `${alarm.kind}: put off. ${alarm.text}`;
  return mayWait(alarm.kind)
    ? `${alarm.kind}: ${alarm.text}`
    : `${alarm.kind}: about water, cannot be put off. ${alarm.text}`;
};

const isShelved = ({ alarms }: Status, kind: string): boolean =>
  alarms.some((alarm) => alarm.kind === kind && alarm.state === 'shelved');

/** Whether the host has put it off, or on again, as it was told to. */
const comesToBe = async (folder: string, kind: string, shelved: boolean): Promise<boolean> => {
  const until = performance.now() + SEEN_SECONDS * 1000;
  while (performance.now() < until) {
    if (isShelved(await knownStatus(folder), kind) === shelved) return true;
    await sleep(200);
  }
  return false;
};

/** The alarm that is meant. @throws Refusal where it cannot be put off, with what can */
const meant = ({ alarms }: Status, kind: string): Told => {
  const found = alarms.find((alarm) => alarm.kind === kind && isActive(alarm));
  if (found === undefined) {
    const may = alarms.filter((alarm) => isActive(alarm) && mayWait(alarm.kind)).map((alarm) => alarm.kind);
    const allowed = may.length === 0 ? 'none that stands can be put off' : `allowed is ${may.join(', ')}`;
    throw new Refusal(`No alarm "${kind}" stands; ${allowed}.`, EXIT.usage);
  }
  if (mayWait(kind)) return found;
  throw new Refusal(
    `"${kind}" is about water, and such an alarm cannot be put off: the crop hangs on it. rillkeeper acknowledge stops buzzer and calls until it is told again.`,
    EXIT.usage,
  );
};

/**
 * `rillkeeper shelve FARM [ALARM]`: somebody at the host puts an alarm off that is not about water, for as long as the benches
 * allow at most; without an alarm it lists those that stand.
 */
export const shelve = async (
  path: string,
  kind: string | undefined,
  options: ShelveOptions,
  console: Console,
): Promise<ExitCode> => {
  const minutes = numberWithin(options.minutes, '--minutes', 0, SHELF_MINUTES_MAX);
  const { farm } = await farmToTellOf(path, console);
  const folder = stateFolder(farm.farm);
  const status = await knownStatus(folder);
  if (kind === undefined) {
    const active = status.alarms.filter(isActive);
    if (active.length === 0) console.out('No alarm stands.');
    for (const alarm of active) console.out(wrapped(listed(alarm), console.columns, 2));
    return EXIT.done;
  }
  const { text, state } = meant(status, kind);
  if (minutes === 0 && state !== 'shelved') {
    console.out(wrapped(`Not put off: ${text}`, console.columns, 2));
    return EXIT.done;
  }
  const most = shelfMinutesMax(status.timeLeft.minutes);
  // Of one that is put off already nothing to be seen would tell that the host refused.
  if (minutes > 0 && most < 1)
    throw new Refusal(`"${kind}" is not put off: too little time is left without the pump.`, EXIT.notWell);
  await tellHost(
    folder,
    { kind: 'shelve', alarm: kind, minutes, who: whoIsHere(), atMillis: Date.now() },
    noHostTook('Nothing is put off', farm.farm, folder, `shelve ${path} ${kind}`),
  );
  if (!(await comesToBe(folder, kind, minutes > 0))) {
    throw new Refusal(
      minutes > 0
        ? `The host took the word and did not put it off: rillkeeper book ${path} --kind shelve-refused says why.`
        : `The host took the word, and the alarm is still put off: rillkeeper status ${path}`,
      EXIT.notWell,
    );
  }
  const granted = Math.min(minutes, most);
  const less = granted < minutes ? ', half of the time left without the pump' : '';
  console.out(
    wrapped(
      minutes === 0 ? `Told again: ${text}` : `Put off for ${spanText(granted)}${less}: ${text}`,
      console.columns,
      2,
    ),
  );
  return EXIT.done;
};
