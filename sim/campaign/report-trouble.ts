import { boardMessages, isReport } from '../board/firmata/board-messages.ts';
import type { Dice } from '../dice.ts';
import type { HostFaultKind } from '../faults/injectors.ts';
import { standingHost, type Script } from './script.ts';

const LOST_SHARE = 0.5;
const OLD_MILLIS = 60_000;

/** What comes through of what a board says: of its reports some are lost and some come again; its answers come through. */
export const createReportTrouble = (
  script: Script,
  dice: Dice,
  hit: (kind: HostFaultKind) => void,
): ((bytes: Uint8Array, atMillis: number) => Uint8Array) => {
  const isDrawn = script.host.some(({ kind }) => kind === 'samples-lost' || kind === 'samples-repeated');
  let said: { readonly message: Uint8Array; readonly atMillis: number }[] = [];
  return (bytes, atMillis) => {
    if (!isDrawn) return bytes;
    const messages = boardMessages(bytes);
    const loses = standingHost(script, 'samples-lost', atMillis) !== null;
    const through = messages.filter((message) => !loses || !isReport(message) || dice() >= LOST_SHARE);
    if (through.length < messages.length) hit('samples-lost');

    const isOld = (one: { readonly atMillis: number }): boolean => one.atMillis <= atMillis - OLD_MILLIS;
    const old = said.filter(isOld);
    said = [
      ...said.slice(old.length),
      ...through.filter(isReport).map((message) => ({ message: message.slice(), atMillis })),
    ];
    const again = standingHost(script, 'samples-repeated', atMillis) === null ? [] : old;
    if (again.length > 0) hit('samples-repeated');
    return Uint8Array.from([...through, ...again.map(({ message }) => message)].flatMap((one) => [...one]));
  };
};
