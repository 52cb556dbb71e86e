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
  /** Reports that came through, in the order of time. */
  const said: { readonly message: Uint8Array; readonly atMillis: number }[] = [];
  const leaveOld = (atMillis: number): readonly Uint8Array[] => {
    const young = said.findIndex((one) => one.atMillis > atMillis - OLD_MILLIS);
    return said.splice(0, young === -1 ? said.length : young).map(({ message }) => message);
  };
  return (bytes, atMillis) => {
    if (!isDrawn) return bytes;
    const messages = boardMessages(bytes);
    const loses = standingHost(script, 'samples-lost', atMillis) !== null;
    const through = messages.filter((message) => !loses || !isReport(message) || dice() >= LOST_SHARE);
    if (through.length < messages.length) hit('samples-lost');

    const old = leaveOld(atMillis);
    said.push(...through.filter(isReport).map((message) => ({ message: message.slice(), atMillis })));
    const again = standingHost(script, 'samples-repeated', atMillis) === null ? [] : old;
    if (again.length > 0) hit('samples-repeated');
    return Uint8Array.from([...through, ...again].flatMap((one) => [...one]));
  };
};
